// Loaded before a timed program: says at its end what it took of the processor and of memory, in a file that REPORT_USAGE_TO names.
import { writeFileSync } from 'node:fs';

process.on('exit', () => {
  writeFileSync(process.env.REPORT_USAGE_TO, JSON.stringify(process.resourceUsage()));
});
