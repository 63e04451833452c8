/** Which texts depend on which others, by their addresses. */
export class Dependencies {
  private readonly needed = new Map<string, readonly string[]>();
  private readonly needing = new Map<string, Set<string>>();

  /** Tells what a text depends on, in place of what it did before. */
  set(uri: string, needs: Iterable<string>): void {
    this.forget(uri);
    const all = [...new Set(needs)];
    this.needed.set(uri, all);
    for (const need of all) {
      const dependents = this.needing.get(need);
      if (dependents) dependents.add(uri);
      else this.needing.set(need, new Set([uri]));
    }
  }

  has(uri: string): boolean {
    return this.needed.has(uri);
  }

  /** What a text depends on. */
  of(uri: string): readonly string[] {
    return this.needed.get(uri) ?? [];
  }

  forget(uri: string): void {
    for (const need of this.needed.get(uri) ?? []) {
      const dependents = this.needing.get(need);
      dependents?.delete(uri);
      if (dependents?.size === 0) this.needing.delete(need);
    }
    this.needed.delete(uri);
  }

  /** The texts that depend on one. */
  dependents(uri: string): string[] {
    return [...(this.needing.get(uri) ?? [])];
  }

  /** Whether any text depends on one. */
  isNeeded(uri: string): boolean {
    return this.needing.has(uri);
  }

  /** Every text that another depends on. */
  all(): string[] {
    return [...this.needing.keys()];
  }
}
