const assert = require('node:assert/strict');
const { writeFileSync } = require('node:fs');
const { join } = require('node:path');
const vscode = require('vscode');
const {
  applyAction,
  bytesOnDisk,
  closeAll,
  completionsAt,
  findingOf,
  findings,
  findingsThat,
  fixesAt,
  folder,
  hoverAt,
  openSheet,
  place,
  typeOver,
  undo,
  until,
} = require('./sheet-editor.cjs');
const { runStories } = require('./runner.cjs');
const { serverProcesses } = require('./server-process.cjs');
const { cleanSheet, unitlessPower } = require('./sheets.cjs');

const errorsIn = (editor) => findings(editor).filter((f) => f.severity === vscode.DiagnosticSeverity.Error);

/** Types a bad value, repairs it with the offered fix, and undoes everything, comparing bytes. */
async function slipRepairUndo(name) {
  const editor = await openSheet(name);
  const original = bytesOnDisk(editor);
  await typeOver(editor, unitlessPower.before, unitlessPower.after);
  const slipped = editor.document.getText();
  const finding = await findingOf(editor, unitlessPower.code);
  const fixes = await until('a quick-fix', async () => {
    const all = await fixesAt(editor, finding.range);
    return all.length > 0 && all;
  });
  await applyAction(fixes[0]);
  await findingsThat(editor, 'the finding gone', () => errorsIn(editor).length === 0);
  await undo();
  assert.equal(editor.document.getText(), slipped, 'one undo takes the fix back');
  await findingOf(editor, unitlessPower.code);
  await until('all typing undone', async () => {
    await undo();
    return !editor.document.isDirty;
  });
  await findingsThat(editor, 'the finding gone', () => errorsIn(editor).length === 0);
  const text = editor.document.getText();
  assert.equal(text, original.toString('utf8').replace(/^\uFEFF/, ''));
  await vscode.workspace.fs.writeFile(editor.document.uri, original);
  await editor.edit((builder) => builder.insert(new vscode.Position(0, 0), '#'));
  await undo();
  await editor.document.save();
  assert.deepEqual(bytesOnDisk(editor), original, 'saved bytes are the original ones');
}

exports.run = () =>
  runStories({
    'typing a bad value shows a finding, the quick-fix repairs it, undo restores every byte': async () => {
      await slipRepairUndo(cleanSheet);
      await closeAll();
    },
    'the same with Windows line endings and a byte order mark': async () => {
      const original = bytesOnDisk(await openSheet(cleanSheet)).toString('utf8');
      await closeAll();
      writeFileSync(join(folder(0), 'windows.build.yaml'), `\uFEFF${original.replaceAll('\n', '\r\n')}`);
      await slipRepairUndo('windows.build.yaml');
      await closeAll();
    },
    'hover on injectors shows their figures': async () => {
      const editor = await openSheet(cleanSheet);
      const text = await until('a hover', () => hoverAt(editor, place(editor, 'injectors:').start.translate(0, 1)));
      assert.match(text, /duty/i);
      assert.match(text, /\d/);
      await closeAll();
    },
    'completion offers keys': async () => {
      const editor = await openSheet(cleanSheet);
      const offered = await completionsAt(editor, place(editor, 'redline:').start);
      assert.ok(offered.items.some((item) => (item.label.label ?? item.label) === 'redline'));
      await closeAll();
    },
    'a second folder of the workspace is checked too': async () => {
      const editor = await openSheet('pickup.build.yaml', 1);
      await typeOver(editor, unitlessPower.before, unitlessPower.after);
      await findingOf(editor, unitlessPower.code);
      await closeAll();
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
      assert.equal(await enterAfter('  idle: 750 rpm # warm'), '  ', 'below a field');
      await closeAll();
    },
    'a server that crashes comes back, and can be restarted by hand when it has crashed too often': async () => {
      const editor = await openSheet(cleanSheet);
      const { extensionPath } = vscode.extensions.getExtension('build-sheet.build-sheet');
      await typeOver(editor, unitlessPower.before, unitlessPower.after);
      for (let crash = 1; crash <= 4; crash += 1) {
        await findingOf(editor, unitlessPower.code);
        const [pid] = serverProcesses(extensionPath);
        process.kill(pid, 'SIGKILL');
        await findingsThat(editor, 'findings gone with their server', (all) => all.length === 0);
      }
      await vscode.commands.executeCommand('buildSheet.restartServer');
      await until('one server', () => serverProcesses(extensionPath).length === 1);
      await findingOf(editor, unitlessPower.code);
      await closeAll();
    },
  });
