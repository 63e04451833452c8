/** Which texts depend on which others, by their addresses. */
export class Dependencies {
  private readonly needed = new Map<string, ReadonlySet<string>>();

  /** Tells what a text depends on, in place of what it did before. */
  set(uri: string, needs: Iterable<string>): void {
    this.needed.set(uri, new Set(needs));
  }

  forget(uri: string): void {
    this.needed.delete(uri);
  }

  /** The texts that depend on one. */
  dependents(uri: string): string[] {
    return [...this.needed].filter(([, needs]) => needs.has(uri)).map(([dependent]) => dependent);
  }

  /** Every text that another depends on. */
  all(): Set<string> {
    return new Set([...this.needed.values()].flatMap((needs) => [...needs]));
  }
}
