/** Whoever wants to be told of one kind of thing. */
export class Listeners<Told> {
  private readonly listeners = new Set<(told: Told) => void>();

  /** @returns a function that forgets the listener */
  add(listener: (told: Told) => void): () => void {
    this.listeners.add(listener);
    return () => {
      this.listeners.delete(listener);
    };
  }

  tell(told: Told): void {
    // A copy: a listener may forget itself, or another, while it is told.
    for (const listener of [...this.listeners]) listener(told);
  }

  clear(): void {
    this.listeners.clear();
  }
}
