// What a user does with a build sheet, in the words of the vscode API.
const assert = require('node:assert/strict');
const { readdirSync, readFileSync, writeFileSync } = require('node:fs');
const { join } = require('node:path');
const vscode = require('vscode');
const { note } = require('./runner.cjs');

/** Polls until `probe` gives something truthy and returns it; fails with `what` after the limit. */
async function until(what, probe, limit = 120_000) {
  const end = Date.now() + limit;
  for (;;) {
    const found = await probe();
    if (found) return found;
    if (Date.now() > end) assert.fail(`waited ${limit} ms in vain: ${what}`);
    await new Promise((ok) => setTimeout(ok, 20));
  }
}

const folder = (index) => vscode.workspace.workspaceFolders[index].uri.fsPath;

/** Opens a sheet of the first (or another) workspace folder in an editor of its own. */
async function openSheet(name, folderIndex = 0) {
  const document = await vscode.workspace.openTextDocument(join(folder(folderIndex), name));
  return vscode.window.showTextDocument(document, { preview: false });
}

/** Closes every editor and throws unsaved changes away. */
async function closeAll() {
  while (vscode.window.activeTextEditor) {
    await vscode.commands.executeCommand('workbench.action.revertAndCloseActiveEditor');
  }
}

const original = new Map();

/** Closes every editor and puts back what an earlier story left otherwise in the folders. */
async function startAfresh() {
  await closeAll();
  for (const { uri } of vscode.workspace.workspaceFolders) {
    for (const name of readdirSync(uri.fsPath).filter((file) => /\.build\.ya?ml$/.test(file))) {
      const path = join(uri.fsPath, name);
      const bytes = readFileSync(path);
      if (!original.has(path)) original.set(path, bytes);
      else if (!original.get(path).equals(bytes)) writeFileSync(path, original.get(path));
    }
  }
}

/** Asks again, and says so, when a busy VS Code gives a question up. */
async function patiently(what, ask) {
  for (let tries = 1; ; tries += 1) {
    try {
      return await ask();
    } catch (error) {
      if (error.name !== 'Canceled' || tries === 5) throw error;
      note(`${what} asked again: canceled`);
    }
  }
}

/** The n-th range (from 0) where `text` stands. */
function place({ document }, text, n = 0) {
  let at = document.getText().indexOf(text);
  for (let i = 0; i < n && at >= 0; i += 1) at = document.getText().indexOf(text, at + 1);
  assert.ok(at >= 0, `the sheet has no ${JSON.stringify(text)}`);
  return new vscode.Range(document.positionAt(at), document.positionAt(at + text.length));
}

/** Selects `old` and types `text` over it, as from a keyboard. */
async function typeOver(editor, old, text) {
  const range = place(editor, old);
  editor.selection = new vscode.Selection(range.start, range.end);
  if (text === '') await vscode.commands.executeCommand('deleteLeft');
  for (const character of text) await vscode.commands.executeCommand('type', { text: character });
}

const codeOf = (finding) => (typeof finding.code === 'object' ? finding.code.value : finding.code);

const findings = ({ document }) => vscode.languages.getDiagnostics(document.uri);

/** Waits until the editor's findings satisfy the test and returns them. */
const findingsThat = (editor, what, test) => until(what, () => test(findings(editor)) && findings(editor));

/** Waits for a finding with the code, whose range holds `text` if given. */
async function findingOf(editor, code, text) {
  const holds = (finding) =>
    codeOf(finding) === code && (text === undefined || editor.document.getText(finding.range).includes(text));
  await findingsThat(editor, `a finding ${code}`, (all) => all.some(holds));
  return findings(editor).find(holds);
}

/** Hover text at a position, as Markdown. */
async function hoverAt({ document }, position) {
  const ask = () => vscode.commands.executeCommand('vscode.executeHoverProvider', document.uri, position);
  const hovers = await patiently('hover', ask);
  return hovers.flatMap(({ contents }) => contents.map((c) => (typeof c === 'string' ? c : c.value))).join('\n');
}

const completionsAt = ({ document }, position) =>
  patiently('completion', () =>
    vscode.commands.executeCommand('vscode.executeCompletionItemProvider', document.uri, position),
  );

const fixesAt = ({ document }, range, kind = vscode.CodeActionKind.QuickFix) =>
  patiently('code actions', () =>
    vscode.commands.executeCommand('vscode.executeCodeActionProvider', document.uri, range, kind.value, 20),
  );

async function applyAction(action) {
  if (action.edit) assert.ok(await vscode.workspace.applyEdit(action.edit), `could not apply ${action.title}`);
  if (action.command) await vscode.commands.executeCommand(action.command.command, ...(action.command.arguments ?? []));
}

/** Saves until nothing is left to save; a save that was refused is reported. */
async function save({ document }) {
  await until('everything saved', async () => {
    if (!(await patiently('saving', () => document.save()))) note(`saving ${document.fileName} again`);
    return !document.isDirty;
  });
}

const undo = () => vscode.commands.executeCommand('undo');

const bytesOnDisk = ({ document }) => readFileSync(document.uri.fsPath);

module.exports = {
  applyAction,
  bytesOnDisk,
  codeOf,
  completionsAt,
  findingOf,
  findings,
  findingsThat,
  fixesAt,
  folder,
  hoverAt,
  openSheet,
  place,
  save,
  startAfresh,
  typeOver,
  undo,
  until,
};
