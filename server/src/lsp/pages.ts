import { type Position, RequestType, type TextDocumentIdentifier } from 'vscode-languageserver';
import { headroomPage } from '../report/headroom-page.ts';
import { markdown } from '../report/markdown.ts';
import { needsPage } from '../report/needs-page.ts';
import type { Page } from '../report/page.ts';
import type { Session } from './session.ts';
import { done } from './work.ts';

/**
 * A page to be read beside the sheet: how the figures of a field came about, what uses the field, what the build needs, how
 * far it goes.
 */
export type PageParams = {
  textDocument: TextDocumentIdentifier;
  page: 'work' | 'uses' | 'needs' | 'headroom';
  /** The field that `work` and `uses` are about. */
  position?: Position;
};

export const pageRequest = new RequestType<PageParams, { title: string; markdown: string } | null, void>(
  'buildSheet/page',
);

/** How long a page may take, in ms, before what is not done yet is left out. */
const PATIENCE = 20_000;

/** Answers with pages for a client that can show them. */
export function answerPages(session: Session): void {
  const { connection, service } = session;
  connection.onRequest(
    pageRequest,
    session.answering('a page', null, async (document, { page, position }: PageParams, mayGoOn) => {
      const { uri } = document;
      if (page === 'work') {
        const work = position && service.work(uri, document.offsetAt(position));
        return work ? told(`The work: ${work.title}`, work.page) : null;
      }
      if (page === 'uses') {
        const uses = position && service.fieldUses(uri, document.offsetAt(position));
        return uses ? told(`What uses it: ${uses.title}`, uses.page) : null;
      }
      if (page === 'needs') {
        const needs = await done(service.needs(uri), PATIENCE, mayGoOn);
        return needs ? told('What it needs', needsPage(needs, needs.units)) : null;
      }
      const { stages, units } = await done(service.headroom(uri), PATIENCE, mayGoOn);
      return told('How far it goes', headroomPage(stages, units));
    }),
  );
}

function told(title: string, page: Page): { title: string; markdown: string } {
  return { title, markdown: `${markdown(page)}\n` };
}
