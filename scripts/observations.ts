/** What tests compare of fixtures, samples and whole sheets, as one digest; run as a worker by `mutate-operators.ts`. */
import { createHash } from 'node:crypto';
import { parentPort } from 'node:worker_threads';
import { figures } from '../server/src/analysis/figures.ts';
import { absentIn } from '../server/src/analysis/worksheet.ts';
import { checkSheet, checkText } from '../server/src/checking/checked.ts';
import { offeredRepairs } from '../server/src/checking/repair.ts';
import { noHouse } from '../server/src/sheet/house.ts';
import { wholeSheets } from '../tests/reference/whole-sheets.ts';
import { fixtures, readFixture, readMarked } from '../tests/rules/fixture.ts';

const texts = [
  ...fixtures().flatMap(({ folder, bad, good }) =>
    [...bad, ...good].map((file) => readMarked(readFixture(folder, file)).text),
  ),
  ...wholeSheets.map(({ text }) => text),
];

const digest = createHash('sha256');
const note = (value: unknown) => digest.update(JSON.stringify(value) ?? '');
for (const text of texts) {
  const checked = checkText(text, noHouse);
  const again = checkSheet(checked.sheet, noHouse, checked);
  note(checked.sheet.problems);
  note(checked.findings.map((finding) => ({ ...finding, repairs: offeredRepairs(checked, finding) })));
  note([
    again.findings.map(({ message }) => message),
    checked.accepted,
    checked.open,
    checked.faults.map(({ where }) => where),
  ]);
}
for (const { text } of wholeSheets) {
  const { plan } = checkText(text, noHouse);
  note(plan.map((stage) => [[...stage.figures], figures.map((node) => absentIn(stage.see(node)) ?? null)]));
}
parentPort?.postMessage(digest.digest('hex'));
