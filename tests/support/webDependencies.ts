import type { WebDependencies } from '../../web/server/dependencies.ts';
import type { PracticeRun } from './practiceRun.ts';
import { RememberedArchive } from './rememberedArchive.ts';
import { RememberingSession } from './rememberingSession.ts';

export type TestDependencies = WebDependencies & {
  readonly session: RememberingSession;
  readonly archive: RememberedArchive;
};

export function testDependencies(runs: readonly PracticeRun[], pageFolder: string): TestDependencies {
  return { session: new RememberingSession(), archive: new RememberedArchive(runs), pageFolder };
}
