import type { TextDocument } from 'vscode-languageserver-textdocument';

/** So many different faults are logged; more would only say the same again. */
const MOST_LOGGED = 100;

/** Our own faults: each is logged once, and told in the version of a text it was met in. */
export class Faults {
  private readonly logged = new Set<string>();
  private readonly inTexts = new Map<string, { version: number; places: Set<string> }>();

  constructor(private readonly log: (line: string) => void) {}

  /** Takes a fault down; whether it is new in this version of the text. */
  note(where: string, error: unknown, document?: TextDocument): boolean {
    if (document && this.placesIn(document).has(where)) return false;
    if (document) {
      const places = new Set([...this.placesIn(document), where]);
      this.inTexts.set(document.uri, { version: document.version, places });
    }
    const report = faultReport(where, error);
    if (!this.logged.has(report) && this.logged.size < MOST_LOGGED) {
      this.logged.add(report);
      this.log(report);
    }
    return true;
  }

  /** What to tell in a version of a text. */
  messagesIn(document: TextDocument): string[] {
    return [...this.placesIn(document)].map(faultMessage);
  }

  forget(uri: string): void {
    this.inTexts.delete(uri);
  }

  private placesIn({ uri, version }: TextDocument): ReadonlySet<string> {
    const known = this.inTexts.get(uri);
    return known?.version === version ? known.places : new Set();
  }
}

/** A fault as the one who meets it reads it in the text. */
export function faultMessage(where: string): string {
  return `Internal fault in ${where}; the rest works. It is our mistake, not yours: the output of Build Sheet says how to report it.`;
}

function faultReport(where: string, error: unknown): string {
  const trace = error instanceof Error ? (error.stack ?? error.message) : String(error);
  return `Internal fault in ${where}. To report it, open an issue where you got Build Sheet from, with these lines and, if you may show it, the sheet.\n${trace}`;
}
