const assert = require('node:assert/strict');
const { existsSync, readFileSync, readdirSync, rmSync, writeFileSync } = require('node:fs');
const { join } = require('node:path');
const vscode = require('vscode');
const {
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
} = require('./sheet-editor.cjs');
const { runStories } = require('./runner.cjs');
const { serverProcesses } = require('./server-process.cjs');
const { cleanSheet, contactPoints, unitlessPower } = require('./sheets.cjs');

const none = (all) => all.length === 0;

const without = (code) => (all) => !all.some((finding) => codeOf(finding) === code);

/** Types a bad value and saves it, repairs it with the first fix offered, undoes everything, and compares bytes. */
async function slipRepairUndo(name, slip) {
  const editor = await openSheet(name);
  const { document } = editor;
  const original = { bytes: bytesOnDisk(editor), text: document.getText() };
  await typeOver(editor, slip.before, slip.after);
  await save(editor);
  assert.notDeepEqual(bytesOnDisk(editor), original.bytes);
  const slipped = document.getText();
  const finding = await findingOf(editor, slip.code, slip.after);
  const [fix] = await fixesAt(editor, finding.range);
  assert.ok(fix, 'a quick-fix is offered');
  await applyAction(fix);
  assert.notEqual(document.getText(), slipped);
  await findingsThat(editor, 'the finding gone', without(slip.code));

  await undo();
  assert.equal(document.getText(), slipped, 'one undo takes the fix back');
  await findingOf(editor, slip.code);
  await until('the typing undone', async () => {
    await undo();
    return document.getText() === original.text;
  });
  await save(editor);
  assert.deepEqual(bytesOnDisk(editor), original.bytes, 'the saved bytes are the original ones');
  await findingsThat(editor, 'the finding gone', without(slip.code));
}

exports.run = () =>
  runStories(startAfresh, {
    'a good sheet has no findings': async () => {
      const editor = await openSheet(cleanSheet);
      await until('an answer', () => hoverAt(editor, place(editor, 'displacement:').start));
      assert.deepEqual(findings(editor), []);
    },
    'typing a value without a unit shows a finding, the quick-fix repairs it, undo restores every byte': () =>
      slipRepairUndo(cleanSheet, unitlessPower),
    'so does a choice that is bad engineering': () => slipRepairUndo(cleanSheet, contactPoints),
    'the same with Windows line endings and a byte order mark': async () => {
      const text = readFileSync(join(folder(0), cleanSheet), 'utf8');
      writeFileSync(join(folder(0), 'windows.build.yml'), `\uFEFF${text.replaceAll('\n', '\r\n')}`);
      await slipRepairUndo('windows.build.yml', unitlessPower);
      await slipRepairUndo('windows.build.yml', contactPoints);
    },
    'hover on injectors and pump shows their figures': async () => {
      const editor = await openSheet(cleanSheet);
      assert.match(await hoverAt(editor, place(editor, 'injectors:').start), /Duty cycle[^|]*\|[^|]*\d\s%/);
      assert.match(await hoverAt(editor, place(editor, 'pump:').start), /Delivery[^|]*\|[^|]*\d\s(gal|L)\/h/);
    },
    'completion offers fields, choices and units': async () => {
      const editor = await openSheet(cleanSheet);
      const offers = (text, expected) =>
        until(`${expected} offered`, async () => {
          const { items } = await completionsAt(editor, place(editor, text).end);
          const ours = items.filter(({ kind }) => kind !== vscode.CompletionItemKind.Text); // not VS Code's words of the document
          return ours.some(({ label }) => (label.label ?? label) === expected);
        });
      await offers(' psi, reference: ', 'manifold');
      await editor.edit((builder) =>
        builder.insert(place(editor, 'displacement:').start, 'idle-manifold-pressure: 30 \n  '),
      );
      await offers('idle-manifold-pressure: 30 ', '30 kPa');
      await editor.edit((builder) => builder.insert(place(editor, 'displacement:').start, 'vo\n  '));
      await offers('\n  vo', 'volumetric-efficiency');
    },
    'outline and folding follow the sections': async () => {
      const editor = await openSheet(cleanSheet);
      const { uri } = editor.document;
      const symbols = await vscode.commands.executeCommand('vscode.executeDocumentSymbolProvider', uri);
      assert.ok(symbols.some(({ name, children }) => name.includes('engine') && children.length > 0));
      const folds = await vscode.commands.executeCommand('vscode.executeFoldingRangeProvider', uri);
      assert.ok(folds.some(({ start }) => start === place(editor, 'engine:').start.line));
    },
    'every finding of the samples links to a page in the package': async () => {
      for (const name of readdirSync(folder(0)).filter((file) => /\.build\.ya?ml$/.test(file))) {
        const editor = await openSheet(name);
        if (!/^# (finding|problem): /m.test(editor.document.getText())) continue;
        for (const finding of await findingsThat(editor, `findings in ${name}`, (all) => all.length > 0)) {
          assert.ok(existsSync(finding.code.target?.fsPath ?? ''), `${name}: ${codeOf(finding)} has no page`);
        }
      }
    },
    'each folder of the workspace is checked by its own house rules, as soon as they change': async () => {
      const config = join(folder(0), 'build-sheet.config.yaml');
      const first = await openSheet(cleanSheet);
      await typeOver(first, contactPoints.before, contactPoints.after);
      await findingOf(first, contactPoints.code);
      const second = await openSheet('pickup.build.yaml', 1);
      await typeOver(second, contactPoints.before, contactPoints.after);
      await findingOf(second, contactPoints.code);
      writeFileSync(config, `rules: { ${contactPoints.code}: { severity: off, reason: Tried on the bench. } }\n`);
      await findingsThat(first, 'the finding off', without(contactPoints.code));
      await findingOf(second, contactPoints.code);
      rmSync(config);
      await findingOf(first, contactPoints.code);
    },
    'house rules are checked too': async () => {
      writeFileSync(join(folder(1), 'build-sheet.config.yml'), 'rules: { ignition/nonsense: { severity: hint } }\n');
      const editor = await openSheet('build-sheet.config.yml', 1);
      assert.equal(editor.document.languageId, 'build-sheet-config');
      await findingOf(editor, 'house/unknown-rule', 'ignition/nonsense');
      rmSync(editor.document.uri.fsPath);
    },
    'a sheet is served wherever its text comes from, whatever its name or language': async () => {
      const path = join(folder(0), cleanSheet);
      const text = readFileSync(path, 'utf8').replace(unitlessPower.before, unitlessPower.after);
      const explained = (editor) => until('a hover', () => hoverAt(editor, place(editor, 'displacement:').start));
      const untitled = await vscode.workspace.openTextDocument({ language: 'build-sheet', content: text });
      const unsaved = await vscode.window.showTextDocument(untitled, { preview: false });
      await findingOf(unsaved, unitlessPower.code);
      await explained(unsaved);

      const loud = join(folder(0), 'LOUD.BUILD.YAML');
      writeFileSync(loud, text);
      const upperCase = await openSheet('LOUD.BUILD.YAML');
      assert.equal(upperCase.document.languageId, 'build-sheet');
      await findingOf(upperCase, unitlessPower.code);
      rmSync(loud);

      const provider = vscode.workspace.registerTextDocumentContentProvider('earlier', {
        provideTextDocumentContent: () => text,
      });
      const file = vscode.Uri.file(path);
      const earlier = file.with({ scheme: 'earlier' });
      await vscode.commands.executeCommand('vscode.diff', earlier, file);
      await explained({ document: await vscode.workspace.openTextDocument(earlier) });
      provider.dispose();

      const { document } = await openSheet(cleanSheet);
      await explained({ document: await vscode.languages.setTextDocumentLanguage(document, 'yaml') });
      await vscode.languages.setTextDocumentLanguage(document, 'build-sheet');
    },
    'Enter keeps the indentation YAML needs': async () => {
      const editor = await openSheet(cleanSheet);
      const enterAfter = async (line) => {
        await editor.edit((builder) => builder.insert(new vscode.Position(0, 0), `${line}\n`));
        editor.selection = new vscode.Selection(0, line.length, 0, line.length);
        await vscode.commands.executeCommand('type', { text: '\n' });
        return editor.document.lineAt(1).text;
      };
      assert.equal(await enterAfter('engine:'), '  ', 'below a section');
      assert.equal(await enterAfter('  - name: first'), '    ', 'below the first key of a list item');
      assert.equal(await enterAfter('  - changes:'), '      ', 'below a section that is first in a list item');
      assert.equal(await enterAfter('  - note: |'), '      ', 'in a text that is first in a list item');
      assert.equal(await enterAfter('    changes:'), '      ', 'below a section in a list item');
      assert.equal(await enterAfter('  idle: 750 rpm # warm'), '  ', 'below a field');
    },
    'a server that crashes comes back, and can be restarted by hand when it has crashed too often': async () => {
      const { extensionPath } = vscode.extensions.getExtension('build-sheet.build-sheet');
      const editor = await openSheet(cleanSheet);
      await typeOver(editor, unitlessPower.before, unitlessPower.after);
      for (let crash = 1; crash <= 4; crash += 1) {
        await findingOf(editor, unitlessPower.code);
        const [pid] = serverProcesses(extensionPath);
        process.kill(pid, 'SIGKILL');
        await findingsThat(editor, 'findings gone with their server', none);
      }
      await vscode.commands.executeCommand('buildSheet.restartServer');
      await findingOf(editor, unitlessPower.code);
      await until('one server', () => serverProcesses(extensionPath).length === 1);
    },
    'a server that hangs, or that is just starting, can be restarted by hand too': async () => {
      const { extensionPath } = vscode.extensions.getExtension('build-sheet.build-sheet');
      const editor = await openSheet(cleanSheet);
      await typeOver(editor, unitlessPower.before, unitlessPower.after);
      for (const signal of ['SIGSTOP', 'SIGKILL']) {
        await findingOf(editor, unitlessPower.code);
        const [pid] = serverProcesses(extensionPath);
        process.kill(pid, signal);
        await vscode.commands.executeCommand('buildSheet.restartServer');
        await until(`one server after ${signal}`, () => {
          const now = serverProcesses(extensionPath);
          return now.length === 1 && now[0] !== pid;
        });
      }
      await findingOf(editor, unitlessPower.code);
    },
  });
