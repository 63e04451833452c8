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
  });
