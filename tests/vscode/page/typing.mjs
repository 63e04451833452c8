// Types sheets with real keys into empty files and compares, byte for byte, what is on disk after saving.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { basename } from 'node:path';
import { runStories } from '../suite/runner.cjs';
import { linesOf, typist } from './typist.mjs';
import { until, workbenchOf } from './workbench.mjs';

const { COMPLETE_SHEET, EMPTY_SHEETS } = process.env;
const [byKeys, byCompletion] = EMPTY_SHEETS.split('\n');

/** Every kind of field, written as people write it. */
const everyKind = `format: 1
title: Quarry wagon, 4.9 liter
site:
  altitude: 3000 ft
  hottest: 106 degF
vehicle: { use: street, hood-clearance: 7 1/2 in }
engine:
  cylinders: 8
  displacement: 350 in^3
  idle: 700rpm
  compression-ratio: 9.1
  volumetric-efficiency: 85 %
fuel:
  grade: gasoline
  octane: 91
  leaded: false # unleaded
stages:
  - name: first summer
    power: 350 hp
    induction: natural
  - name: blower
    power: 260 kW +/- 5 %
    changes:
      fuel: { grade: e85 }
      throttle-body:
        injectors:
          dead-time: 0.8..1.0 ms
fuel-system:
  mechanical-pump:
  pump:
    placement: in-tank
    flow-at: [[40 psi, 270 l/h], [60 psi, 225 L/h]]
    rated-voltage: 12V
  feed: { inside-diameter: 3/8", length: 16ft }
electrical:
  pump-circuit: { wire: 12 AWG, fuse: 20 A, relay: true }
silence:
  - rule: paper/no-handover
    reason: not yet
notes:
  - note: "Leak test: dry."`;

export default (page) => {
  const workbench = workbenchOf(page);

  async function saved(path, text) {
    const name = basename(path);
    await page.keyboard.press('Control+S');
    await page.locator('.tab.active:not(.dirty)', { hasText: name }).waitFor();
    await workbench.shot(name.split('.')[0]);
    assert.equal(readFileSync(path, 'utf8'), text);
  }

  return runStories(() => {}, {
    'every kind of field is typed at 60 to 180 ms a key, Enter after it, and reads as typed': async () => {
      await page.locator('.monaco-workbench').waitFor();
      await workbench.goTo(basename(byKeys));
      await page.locator('.statusbar-item', { hasText: 'Build Sheet' }).first().waitFor();
      const speeds = [60, 90, 120, 180];
      const { typeLine } = typist(page);
      for (const [index, line] of linesOf(everyKind).entries()) await typeLine(line, speeds[index % speeds.length]);
      await saved(byKeys, everyKind);
      await workbench.command('View: Close All Editors');
    },
    'an empty file becomes a complete sheet by a few letters and Enter for each field and choice': async () => {
      await workbench.goTo(basename(byCompletion));
      const { completeLine } = typist(page);
      for (const line of linesOf(COMPLETE_SHEET)) await completeLine(line, 60);
      await saved(byCompletion, COMPLETE_SHEET);
      await until('nothing wrong', () => page.locator('.statusbar-item', { hasText: 'nothing wrong found' }).count());
    },
  });
};
