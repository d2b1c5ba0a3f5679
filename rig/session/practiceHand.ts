import type { BenchAction } from '../../analysis/guide/guideSetting.ts';
import { practiceCommand } from './practiceCommands.ts';

/** The hand at the practice bench: does one thing after the other, in the order in which they were asked for. */
export class PracticeHand {
  private done: Promise<void> = Promise.resolve();

  constructor(
    private readonly send: (command: string) => Promise<void>,
    private readonly onTrouble: (error: unknown) => void,
  ) {}

  /** Fulfilled once everything that was asked for so far is done. */
  idle(): Promise<void> {
    return this.done;
  }

  act(actions: readonly BenchAction[]): void {
    for (const action of actions) this.tell(practiceCommand(action));
  }

  tell(command: string): void {
    this.done = this.done.then(() => this.send(command)).catch(this.onTrouble);
  }
}
