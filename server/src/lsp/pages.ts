import { type Position, RequestType, type TextDocumentIdentifier } from 'vscode-languageserver';
import { topicPage } from '../features/explain-topic.ts';
import { comparisonPage } from '../report/comparison-page.ts';
import { headroomPage } from '../report/headroom-page.ts';
import { htmlDocument } from '../report/html.ts';
import { markdown } from '../report/markdown.ts';
import { needsPage } from '../report/needs-page.ts';
import type { Page } from '../report/page.ts';
import { reportPage } from '../report/report-page.ts';
import type { Session } from './session.ts';
import { done } from './work.ts';

/**
 * A page to be read beside the sheet: how the figures of a field came about, what uses the field, what the build needs, how
 * far it goes, the whole build on paper, what the change from another text does, what a rule is there for.
 */
export type PageParams = {
  textDocument: TextDocumentIdentifier;
  page: 'work' | 'uses' | 'needs' | 'headroom' | 'report' | 'compare' | 'rule';
  /** The field that `work` and `uses` are about. */
  position?: Position;
  /** What `compare` is about: the address of an open text, such as the sheet at the last commit, or the text itself. */
  before?: string | { text: string };
  /** The code of a finding that `rule` is about. */
  code?: string;
};

export const pageRequest = new RequestType<PageParams, { title: string; markdown: string } | null, void>(
  'buildSheet/page',
);

/** The build on paper as one HTML file that loads and runs nothing. */
export const reportRequest = new RequestType<{ textDocument: TextDocumentIdentifier }, { html: string } | null, void>(
  'buildSheet/report',
);

/** How long a page may take, in ms, before what is not done yet is left out. */
const PATIENCE = 20_000;

/** Answers with pages for a client that can show them. */
export function answerPages(session: Session): void {
  const { connection, service } = session;
  connection.onRequest(
    pageRequest,
    session.answering('a page', null, async (document, { page, position, before, code }: PageParams, mayGoOn) => {
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
      if (page === 'compare') {
        const change = before === undefined ? undefined : await done(service.compare(uri, before), PATIENCE, mayGoOn);
        return change ? told('What the change does', comparisonPage(change)) : null;
      }
      if (page === 'rule') {
        const rule = topicPage(String(code));
        return rule ? told('What the rule is there for', rule) : null;
      }
      if (page === 'report') {
        const report = await done(service.report(uri), PATIENCE, mayGoOn);
        return report ? told('Report', reportPage(report.title, report.sections, report.units)) : null;
      }
      const { stages, units } = await done(service.headroom(uri), PATIENCE, mayGoOn);
      return told('How far it goes', headroomPage(stages, units));
    }),
  );
  connection.onRequest(
    reportRequest,
    session.answering('the report', null, async ({ uri }, _, mayGoOn) => {
      const report = await done(service.report(uri), PATIENCE, mayGoOn);
      return report ? { html: htmlDocument(report.title, report.sections, report.units) } : null;
    }),
  );
}

function told(title: string, page: Page): { title: string; markdown: string } {
  return { title, markdown: `${markdown(page)}\n` };
}
