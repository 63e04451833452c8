import type { TextDocumentContentChangeEvent } from 'vscode-languageserver';
import { TextDocument } from 'vscode-languageserver-textdocument';
import type { Service } from '../service.ts';
import { sameFile } from '../workspace/address.ts';
import { type Kind, kindOf } from '../workspace/kind.ts';

/** The documents that are open and ours, as the client counts lines and characters in them. */
export class Documents {
  private readonly open = new Map<string, TextDocument>();
  private readonly files = new Map<string, string>();

  constructor(private readonly service: Service) {}

  /** Takes over a document; its kind, or nothing where it is not ours. */
  put(document: TextDocument): Kind | undefined {
    const { uri, languageId, version } = document;
    const kind = kindOf(uri, languageId);
    if (!kind) return undefined;
    this.open.set(uri, document);
    this.files.set(sameFile(uri), uri);
    this.service.workspace.put({ uri, kind, version, text: document.getText() });
    return kind;
  }

  change(uri: string, changes: TextDocumentContentChangeEvent[], version: number): Kind | undefined {
    const document = this.open.get(uri);
    return document && this.put(TextDocument.update(document, changes, version));
  }

  close(uri: string): Kind | undefined {
    const kind = this.service.workspace.get(uri)?.kind;
    this.open.delete(uri);
    this.files.delete(sameFile(uri));
    this.service.close(uri);
    return kind;
  }

  get(uri: string): TextDocument | undefined {
    return this.open.get(uri);
  }

  /** The document of a file, however its address is spelled; see `sameFile`. */
  like(file: string): TextDocument | undefined {
    return this.open.get(this.files.get(file) ?? '');
  }
}
