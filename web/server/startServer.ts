import { existsSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { openArchive } from '../../rig/archive/openArchive.ts';
import { pumpFrom } from '../../rig/commandLine/recordsFrom.ts';
import { archiveCabinet } from './archiveCabinet.ts';
import { certificateFiling } from './certificateFiling.ts';
import { createApp } from './createApp.ts';
import type { BenchSession } from './dependencies.ts';
import { addressOf, closeServer, listen } from './listen.ts';
import { type OpenedBench, openBench } from './openBench.ts';
import { RequestError } from './refusals.ts';
import type { StartOptions } from './startOptions.ts';

const PAGE_FOLDER = fileURLToPath(new URL('../page/dist', import.meta.url));

/** A running program. */
export type RunningServer = {
  readonly address: string;
  readonly archiveFolder: string;
  /** What the person at the terminal should know, a line each. */
  readonly words: readonly string[];
  /** Seals an open run and ends everything that was started; once ended, does nothing. */
  readonly close: () => Promise<void>;
};

function sessionOf({ session }: OpenedBench): BenchSession {
  return {
    state: () => session.state(),
    onState: (listener) => session.onState(listener),
    onReadings: (listener) => session.onReadings(listener),
    startRun: ({ isByHand, ...request }) => session.startRun(request, isByHand),
    takeZeroCheck: async (conditions) => ({
      zeroCheck: await session.takeZeroCheck(conditions),
      unitSymbols: Object.fromEntries(session.bench().channels.map(({ channel, unit }) => [channel, unit])),
    }),
    stopRun: (reason) => session.stopRun(reason),
    mark: (text) => session.mark(text),
    commandPractice: (text) => session.commandPractice(text),
    bench: () => session.bench(),
    calibrate: async ({ channel, calibration }) => session.calibrate(channel, calibration),
  };
}

/**
 * Opens archive, bench and server.
 *
 * @param options - archive folder, port and bench [-]
 * @param pageFolder - the built page [-]
 * @throws BenchError if the archive, the line or a record is not as it must be, or no port is free
 */
export async function startServer(options: StartOptions, pageFolder = PAGE_FOLDER): Promise<RunningServer> {
  if (!existsSync(join(pageFolder, 'index.html'))) {
    throw new RequestError(500, 'NO_PAGE', `the page is not built in ${pageFolder}: run npm run page first`);
  }
  const archiveFolder = resolve(options.archive);
  const archive = openArchive(archiveFolder);
  let opened: OpenedBench | null = null;
  try {
    archive.refreshIndex();
    for (const file of options.pump ?? []) pumpFrom(archive, file);
    opened = await openBench(archive, options);
    const { bench, isPractice } = opened;
    const cabinet = archiveCabinet(archive, bench, isPractice, certificateFiling(archive));
    const server = await listen(createApp({ session: sessionOf(opened), archive: cabinet, pageFolder }), options.port);
    const toClose = opened;
    let closing: Promise<void> | null = null;
    const close = async (): Promise<void> => {
      await closeServer(server);
      await toClose.close();
      archive.close();
    };
    return {
      address: addressOf(server),
      archiveFolder,
      words: [
        ...archive.recoveries.map((found) =>
          found.sealed
            ? `run ${found.runId} had been cut off and is sealed up to its last whole line`
            : `run ${found.runId} cannot be sealed: ${found.why}`,
        ),
        opened.words,
      ],
      close: () => {
        closing ??= close();
        return closing;
      },
    };
  } catch (error) {
    await opened?.close();
    archive.close();
    throw error;
  }
}
