// In an untrusted folder the sheet is checked all the same.
const assert = require('node:assert/strict');
const vscode = require('vscode');
const { findingOf, openSheet, startAfresh, typeOver } = require('./sheet-editor.cjs');
const { runStories } = require('./runner.cjs');
const { cleanSheet, unitlessPower } = require('./sheets.cjs');

exports.run = () =>
  runStories(startAfresh, {
    'a sheet in an untrusted folder is checked': async () => {
      assert.equal(vscode.workspace.isTrusted, false);
      const editor = await openSheet(cleanSheet);
      await typeOver(editor, unitlessPower.before, unitlessPower.after);
      await findingOf(editor, unitlessPower.code);
    },
    'git is not asked in an untrusted folder, and its command not listed': async () => {
      await openSheet(cleanSheet);
      const tabs = () => vscode.window.tabGroups.all.flatMap((group) => group.tabs).length;
      const before = tabs();
      await vscode.commands.executeCommand('buildSheet.compareWithCommit');
      assert.equal(tabs(), before);
      const { packageJSON } = vscode.extensions.getExtension('build-sheet.build-sheet');
      const listed = packageJSON.contributes.menus.commandPalette;
      assert.deepEqual(
        listed.filter(({ command }) => command === 'buildSheet.compareWithCommit'),
        [
          {
            command: 'buildSheet.compareWithCommit',
            when: 'isWorkspaceTrusted && buildSheet.hasGit && !virtualWorkspace',
          },
        ],
      );
    },
  });
