/** Those who want to be told of one kind of thing. */
export class Listeners<Told> {
  private readonly all = new Set<(told: Told) => void>();

  /** Returns the way to stop. */
  add(listener: (told: Told) => void): () => void {
    this.all.add(listener);
    return () => void this.all.delete(listener);
  }

  tell(told: Told): void {
    for (const listener of [...this.all]) listener(told);
  }
}
