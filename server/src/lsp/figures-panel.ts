import { RequestType, type TextDocumentIdentifier, type WorkspaceEdit } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { PanelDrawing } from '../features/panel-drawings.ts';
import type { Triable } from '../features/triable.ts';
import type { Setting } from '../features/what-if.ts';
import type { FiguresShown } from '../service.ts';
import { workspaceEdit } from './code-actions.ts';
import { lspRange } from './positions.ts';
import type { Session } from './session.ts';
import { done } from './work.ts';

type About = { textDocument: TextDocumentIdentifier };

/**
 * What is shown of a sheet beside it: its figures, also those of an earlier text of it and those with other values; of topics
 * that are shut, the heading alone.
 */
export type FiguresParams = About & { before?: string; settings?: readonly Setting[]; shut?: readonly string[] };

/** What takes longer and is shown only where it is asked for. */
export type SectionParams = About & { section: 'questions' | 'curves' | 'ladder' };

type Section = { questions: { texts: readonly string[]; left: number } } | { drawings: readonly PanelDrawing[] };

type WhatIfParams = About & { settings: readonly Setting[] };

export const figuresRequest = new RequestType<FiguresParams, object | null, void>('buildSheet/figures');
export const sectionRequest = new RequestType<SectionParams, Section | null, void>('buildSheet/figuresSection');
export const triableRequest = new RequestType<About, readonly Triable[], void>('buildSheet/triable');
export const whatIfRequest = new RequestType<WhatIfParams, WorkspaceEdit | null, void>('buildSheet/whatIf');

/** How long the headroom of stages may be looked for, in ms, before the rest is left out. */
const PATIENCE = 20_000;
const MOST_QUESTIONS = 8;

/** Answers a client that shows figures beside the sheet, and lets other values be tried there. */
export function answerFigures(session: Session): void {
  const { connection, service } = session;
  connection.onRequest(
    figuresRequest,
    session.answering('the figures', null, (document, { before, settings, shut }: FiguresParams) => {
      const asked = { before, settings: settingsOf(settings), shut: shut?.map(String) ?? [] };
      const found = service.figures(document.uri, asked);
      return found ? { ...placed(document, found), version: document.version } : null;
    }),
  );
  connection.onRequest(
    sectionRequest,
    session.answering('a part of the figures', null, async ({ uri }, { section }: SectionParams, mayGoOn) => {
      if (section === 'curves') return { drawings: service.curves(uri) };
      if (section === 'ladder') return { drawings: await done(service.ladder(uri), PATIENCE, mayGoOn) };
      const texts = service.questions(uri).map(({ text }) => text);
      return { questions: { texts: texts.slice(0, MOST_QUESTIONS), left: Math.max(0, texts.length - MOST_QUESTIONS) } };
    }),
  );
  connection.onRequest(
    triableRequest,
    session.answering('the fields to try', [], ({ uri }) => service.triable(uri)),
  );
  connection.onRequest(
    whatIfRequest,
    session.answering('what is tried', null, (document, { settings }: WhatIfParams) => {
      const edits = service.whatIfEdits(document.uri, settingsOf(settings));
      return edits.length > 0 ? workspaceEdit(document, edits, session.client) : null;
    }),
  );
}

function settingsOf(settings: readonly Setting[] = []): Setting[] {
  return settings.map(({ field, value }) => ({ field: String(field), value: String(value) }));
}

function placed(document: TextDocument, { places, findings, ...rest }: FiguresShown) {
  return {
    ...rest,
    places: places.map((place) => lspRange(document, place)),
    findings: findings.map((finding) => ({ ...finding, range: lspRange(document, finding.range) })),
  };
}
