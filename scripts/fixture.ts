/**
 * Writes the marks and golden files of fixtures from what the rules find now, to be read and approved by a person:
 * `npx tsx scripts/fixture.ts ignition/contact-points ...`, or `all`. The bad sheets must be there, with or without marks.
 */
import { rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { checkText } from '../server/src/checking/checked.ts';
import { verifiedRepairs } from '../server/src/checking/repair.ts';
import { applyEdits } from '../server/src/sheet/edit.ts';
import { noHouse } from '../server/src/sheet/house.ts';
import { fixtures, goldens, marked, readFixture, readMarked } from '../tests/rules/fixture.ts';

const wanted = process.argv.slice(2);
for (const { rule, folder, bad } of fixtures()) {
  if (!wanted.includes(rule) && !wanted.includes('all')) continue;
  for (const file of bad) {
    const { text } = readMarked(readFixture(folder, file));
    writeFileSync(join(folder, file), marked(text, rule));
    for (const golden of goldens(folder, file)) rmSync(join(folder, golden));
    const checked = checkText(text, noHouse);
    for (const { code, message } of checked.sheet.problems) console.log(`${folder}/${file}: ${code} ${message}`);
    const finding = checked.findings.find((one) => one.rule === rule || one.found === rule);
    if (!finding) console.log(`${folder}/${file}: ${rule} finds nothing`);
    const repairs = finding ? verifiedRepairs(checked, finding) : [];
    repairs.forEach(({ title, edits }, index) => {
      console.log(`${folder}/${file}: ${title}`);
      writeFileSync(join(folder, file.replace('.build.yaml', `.fix-${index + 1}.build.yaml`)), applyEdits(text, edits));
    });
    const dropped = (finding?.repairs.length ?? 0) - repairs.length;
    if (dropped) console.log(`${folder}/${file}: ${dropped} repairs did not hold`);
  }
}
