// Loaded before the program by a test: on the way out writes the most memory that was resident, in bytes, to descriptor 3.
import { writeSync } from 'node:fs';

process.on('exit', () => writeSync(3, String(process.resourceUsage().maxRSS * 1024)));
