import { Prec } from '@codemirror/state';
import { EditorView, keymap } from '@codemirror/view';
import type { Hover, MarkupContent } from 'vscode-languageserver';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { make } from '../../client/panel/element.ts';
import { offerActions } from './actions.ts';
import { Asking } from './asking.ts';
import { choose, show } from './dialog.ts';
import { type Edit, Editor } from './editor.ts';
import { part } from './element.ts';
import { FiguresPanel } from './figures.ts';
import { Files, isSheet, nameOf, OWN } from './files.ts';
import { Findings } from './findings.ts';
import { settingsFor, startServer } from './server.ts';
import { Tabs } from './tabs.ts';
import { ToldPages } from './told-pages.ts';

type NewSheet = { kind: string; about: string; text: string };

const FIRST = `${OWN}/sheet.build.yaml`;

/** How long nobody must have typed, in ms, before what takes time is worked out and the browser keeps the text. */
const REST = 250;

const nonce = document.querySelector('script[data-nonce]')?.getAttribute('data-nonce') ?? '';
const files = new Files();
const tell = (text: string) => {
  part('status').textContent = text;
};

let opened = '';
let resting: number | undefined;

const editor = new Editor(
  part('editor'),
  nonce,
  startServer(files, () => look(), []),
  [
    EditorView.updateListener.of(({ docChanged, selectionSet }) => {
      if (docChanged) changed();
      else if (selectionSet) figures.tellCursor();
    }),
    Prec.highest(
      keymap.of([
        { key: 'Mod-.', run: () => doing(act) },
        { key: 'Mod-i', run: () => doing(explain) },
        { key: 'Mod-s', run: () => doing(save) },
      ]),
    ),
  ],
);
const doer = { editor, tell, write: writeElsewhere };
const findings = new Findings(doer);
const asking = new Asking(editor);
const pages = new ToldPages(editor);
const figures = new FiguresPanel(editor, {
  ask: () => tabs.open('asking'),
  opened: () => opened,
  tell,
});
const tabs = new Tabs((panel) => {
  if (panel === 'asking') void asking.begin();
  else asking.stop();
  work();
});

function doing(what: () => unknown): true {
  what();
  return true;
}

function changed(): void {
  tell('');
  setTimeout(look, 0);
}

/** Has the text checked; what takes longer follows once nobody has typed for a while. */
function look(): void {
  void findings.update();
  clearTimeout(resting);
  resting = setTimeout(() => {
    keep();
    work();
  }, REST);
}

function work(): void {
  const { current } = tabs;
  if (current === 'figures') void figures.update();
  if (current === 'needs' || current === 'headroom') void pages.show(current);
  if (current === 'compare') void pages.show('compare', opened);
}

/** Has the browser keep the text, where it is another than it came. */
function keep(): void {
  if (editor.text !== files.read(editor.uri)) files.write(editor.uri, editor.text);
  if (!files.keeps) tell('This browser keeps nothing over a reload: save a copy before you leave.');
}

/** Opens a text; `before` is what it is compared with. */
function open(uri: string, text = files.read(uri) ?? '', before = text): void {
  if (editor.uri) keep();
  files.last = uri;
  asOpened(uri, before);
  editor.open(uri, text);
  tabs.of(isSheet(uri) ? undefined : 'findings');
  (part('report') as HTMLButtonElement).disabled = !isSheet(uri);
  part('name').textContent = nameOf(uri);
  document.title = `${nameOf(uri)} - Build Sheet`;
  asking.stop();
  if (tabs.current === 'asking') void asking.begin();
  look();
}

function asOpened(uri: string, text: string): void {
  opened = text;
  files.keepOpened(uri, text);
}

async function begin(): Promise<void> {
  const kinds = (await editor.client.request<object, NewSheet[]>('buildSheet/newSheets', {}).catch(() => [])) ?? [];
  const known = files.texts.map((uri) => ({
    text: nameOf(uri),
    detail: uri.startsWith(`${OWN}/`) ? 'Kept in this browser.' : 'A sample: an invented build.',
    act: () => open(uri),
  }));
  choose(
    'Begin or open a sheet',
    [
      {
        text: 'A file of yours...',
        detail: 'Sheets, catalogs, house rules or logs; they stay on this machine.',
        act: pick,
      },
      { text: 'An empty sheet', act: () => open(files.free('sheet.build.yaml'), '') },
      ...kinds.map(({ kind, about, text }) => ({
        text: `New: ${kind}`,
        detail: about,
        act: () => open(files.free(`${kind}.build.yaml`), text),
      })),
      {
        text: 'A catalog of your own',
        detail: 'Parts for all your sheets; "What can be done here" makes a section of a sheet one of them.',
        act: beginCatalog,
      },
      ...known,
    ],
    '',
  );
}

function beginCatalog(): void {
  const uri = files.free('shop.parts.yaml');
  files.write(uri, 'format: 1\n');
  tellOfFiles([uri]);
  open(uri);
}

function pick(): void {
  part('file').click();
}

/** Makes edits in a text that is not the one that is open. */
function writeElsewhere(uri: string, edits: readonly Edit[]): void {
  const text = TextDocument.create(uri, '', 0, files.read(uri) ?? '');
  files.write(uri, TextDocument.applyEdits(text, [...edits]));
  tellOfFiles([uri]);
}

/** Has the server look again at files, and whether there are catalogs. */
function tellOfFiles(uris: readonly string[]): void {
  editor.client.notification('workspace/didChangeConfiguration', { settings: { buildSheet: settingsFor(files) } });
  const changes = uris.map((uri) => ({ uri, type: 1 }));
  editor.client.notification('workspace/didChangeWatchedFiles', { changes });
}

/** Takes over files of the user: sheets are opened, others are there for them. */
async function takeFiles(list: readonly File[]): Promise<void> {
  for (const file of list) {
    const text = await file.text();
    const isPlan = !/\.(parts\.ya?ml|csv)$|^build-sheet\.config\.ya?ml$/i.test(file.name);
    const name = isPlan ? file.name.replace(/(\.build)?\.ya?ml$/i, '.build.yaml') : file.name;
    const uri = isPlan ? files.free(name) : `${OWN}/${encodeURIComponent(name)}`;
    files.write(uri, text);
    if (isPlan) open(uri, text);
    else tell(`${name} is there for your sheets.`);
  }
  tellOfFiles(list.map(({ name }) => `${OWN}/${encodeURIComponent(name)}`));
}

function save(): void {
  keep();
  download(nameOf(editor.uri), editor.text, 'application/yaml');
  asOpened(editor.uri, editor.text);
  work();
}

async function saveReport(): Promise<void> {
  tell('Writing the report...');
  const report = await editor.ask<{ html: string }>('buildSheet/report');
  if (!report) return tell('There is no report: the sheet changed meanwhile, or says too little yet.');
  download(nameOf(editor.uri).replace(/(\.build)?\.ya?ml$/i, '.report.html'), report.html, 'text/html');
  tell('The report is saved as a file that loads nothing; it prints.');
}

function download(name: string, text: string, type: string): void {
  const address = URL.createObjectURL(new Blob([text], { type }));
  const link = make('a', { href: address, download: name });
  link.click();
  setTimeout(() => URL.revokeObjectURL(address), 10_000);
}

function forget(): void {
  const name = nameOf(editor.uri);
  const remove = () => {
    files.forget(editor.uri);
    tellOfFiles([editor.uri]);
    const next = files.read(editor.uri) === undefined ? FIRST : editor.uri;
    editor.uri = '';
    open(next);
    tell(`${name} is forgotten.`);
  };
  choose(`Forget ${name}?`, [{ text: 'Forget it', detail: 'What is not saved as a file is lost.', act: remove }], '');
}

function act(): Promise<void> {
  const position = editor.cursor;
  return offerActions(doer, { start: position, end: position });
}

async function explain(): Promise<void> {
  const hover = await editor.ask<Hover>('textDocument/hover', { position: editor.cursor });
  const told = make('div', { class: 'told', tabindex: '0' });
  told.innerHTML = editor.shown(
    hover ? (hover.contents as MarkupContent).value : 'Put the cursor on a field of the sheet first.',
  );
  show('What the field comes to', told);
}

const file = part('file') as HTMLInputElement;
file.addEventListener('change', async () => {
  await takeFiles([...(file.files ?? [])]);
  file.value = '';
});
const buttons = { begin, save, report: saveReport, forget, explain, act };
for (const [id, what] of Object.entries(buttons)) part(id).addEventListener('click', () => void what());
addEventListener('pagehide', () => keep());

const last = files.last ?? FIRST;
tabs.open('findings');
open(last, files.read(last), files.opened(last));
