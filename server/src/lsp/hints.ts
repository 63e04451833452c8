import { type CodeLens, type InlayHint, InlayHintKind, RequestType } from 'vscode-languageserver';
import { countText, type Verdict } from '../features/verdict.ts';
import { lspRange, offsetRange } from './positions.ts';
import type { Session } from './session.ts';

/** What a sheet comes to, also in words; nothing for what is no sheet. */
export const verdictRequest = new RequestType<
  { textDocument: { uri: string } },
  (Verdict & { text: string }) | null,
  void
>('buildSheet/verdict');

/** Shows, where it is wished for, figures beside their parts and a verdict above the stages; and answers what the verdict is. */
export function answerHints(session: Session): void {
  const { connection, service } = session;
  connection.languages.inlayHint.on(
    session.answering('hints', [], (document, { range }): InlayHint[] => {
      if (!session.settings.hints) return [];
      return service.hints(document.uri, offsetRange(document, range)).map(({ offset, text, more }) => ({
        position: document.positionAt(offset),
        label: text,
        tooltip: more,
        kind: InlayHintKind.Parameter,
        paddingLeft: true,
      }));
    }),
  );
  connection.onCodeLens(
    session.answering('the verdict', [], (document): CodeLens[] => {
      const found = session.settings.stageVerdicts ? service.stageVerdicts(document.uri) : undefined;
      if (!found) return [];
      const command = session.client.opensPages ? 'buildSheet.showHeadroom' : '';
      return [{ range: lspRange(document, found.range), command: { title: found.text, command } }];
    }),
  );
  connection.onRequest(
    verdictRequest,
    session.answering('the verdict', null, (document) => {
      const verdict = service.verdict(document.uri);
      return verdict ? { ...verdict, text: countText(verdict) } : null;
    }),
  );
}
