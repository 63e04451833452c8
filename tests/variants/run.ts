/** Prints what the product says of every single fault: told, silent or wrongly told. `npx tsx tests/variants/run.ts [id]` */
import { faults, judge, type Outcome } from './variant.ts';

const asked = process.argv[2];
const outcomes = faults.filter(({ id }) => !asked || id === asked).map(judge);
const silent = outcomes.filter(({ told }) => !told);
const wrong = outcomes.filter((outcome) => outcome.wrong.length > 0);

for (const outcome of asked ? outcomes : [...silent, ...wrong.filter(({ told }) => told)]) show(outcome);
const told = outcomes.length - silent.length;
const share = ((100 * told) / outcomes.length).toFixed(0);
console.log(
  `${outcomes.length} faults: ${told} told (${share} %), ${silent.length} silent, ${wrong.length} wrongly told`,
);

function show({ fault, told: isTold, wrong: wrongs, found, asked: questions }: Outcome): void {
  const words = [isTold ? 'told' : 'silent', ...(wrongs.length > 0 ? ['wrongly told'] : [])].join(', ');
  console.log(`${fault.id} (${fault.on}): ${words}; wanted: ${fault.says} at ${fault.at.join(' or ')}: ${fault.why}`);
  for (const finding of found) {
    const mark = wrongs.includes(finding) ? 'x' : '-';
    console.log(`  ${mark} ${finding.severity} ${finding.rule} at ${finding.field}: ${finding.message}`);
  }
  if (questions.length > 0) console.log(`  ? ${questions.join(', ')}`);
}
