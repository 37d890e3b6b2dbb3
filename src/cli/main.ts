#!/usr/bin/env node
process.stdout.write(`millside ${MILLSIDE_VERSION}\n`);
