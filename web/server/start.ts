import { BenchError } from '../../rig/errors.ts';
import { PROGRAM_VERSION } from '../../rig/programVersion.ts';
import { startOptions } from './startOptions.ts';
import { startServer } from './startServer.ts';

/** `npm start`: everything until Ctrl-C. */
async function start(): Promise<void> {
  const running = await startServer(startOptions(process.argv.slice(2)));
  const end = (): void => {
    running.close().then(
      () => process.exit(0),
      (error: unknown) => {
        console.error(error);
        process.exit(1);
      },
    );
  };
  process.on('SIGINT', end);
  process.on('SIGTERM', end);
  console.log(`Slipwright ${PROGRAM_VERSION}`);
  for (const line of running.words) console.log(line);
  console.log(`archive: ${running.archiveFolder}`);
  console.log(`open ${running.address} in a browser; Ctrl-C ends everything`);
}

start().catch((error: unknown) => {
  console.error(error instanceof BenchError ? `${error.code}: ${error.message}` : error);
  process.exitCode = 1;
});
