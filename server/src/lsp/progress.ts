import type { Connection, WorkDoneProgressReporter } from 'vscode-languageserver';

/** How long work goes on before it is shown, in ms. */
const UNSHOWN = 1000;

/** Shows work that takes longer, as far as the client shows any; whoever sees it can stop it. */
export class Progress {
  private readonly start = performance.now();
  private shown: Promise<WorkDoneProgressReporter> | undefined;

  constructor(
    private readonly connection: Connection,
    private readonly title: string,
    private readonly onStop: () => void,
  ) {}

  /** Tells how much is left of all there is to do. */
  async update({ left, all }: { left: number; all: number }): Promise<void> {
    if (performance.now() - this.start < UNSHOWN) return;
    const percentage = all > 0 ? (100 * (all - left)) / all : 100;
    this.shown ??= this.begin(percentage);
    (await this.shown).report(percentage, `${all - left} of ${all}`);
  }

  async end(): Promise<void> {
    (await this.shown)?.done();
  }

  private async begin(percentage: number): Promise<WorkDoneProgressReporter> {
    const reporter = await this.connection.window.createWorkDoneProgress();
    reporter.begin(this.title, percentage, undefined, true);
    reporter.token.onCancellationRequested(this.onStop);
    return reporter;
  }
}
