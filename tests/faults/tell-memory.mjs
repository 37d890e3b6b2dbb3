// Loaded before the program by a test: on the way out writes to descriptor 3 the most memory that was resident, in bytes, and
// the processor time that was used, in milliseconds.
import { writeSync } from 'node:fs';

process.on('exit', () => {
  const { maxRSS, userCPUTime, systemCPUTime } = process.resourceUsage();
  writeSync(3, `${maxRSS * 1024} ${(userCPUTime + systemCPUTime) / 1000}`);
});
