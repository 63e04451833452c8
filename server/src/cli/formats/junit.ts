import { type CheckedFile, type CheckResult, findingsOf, type ToldAt } from '../check-result.ts';

/**
 * A suite for each file, a failed case for each finding and one that passed where there is none, as in the XML that test
 * runners write; it keeps to `junit-10.xsd` of the Jenkins xUnit plugin.
 */
export function junit(result: CheckResult): string {
  const suites = [...result.files.map(fileSuite), ...unreadSuite(result)];
  const sum = (of: (suite: Suite) => number) => suites.reduce((total, suite) => total + of(suite), 0);
  const counts = {
    tests: sum(({ tests }) => tests),
    failures: sum(({ failures }) => failures),
    errors: sum(({ errors }) => errors),
  };
  const lines = [
    '<?xml version="1.0" encoding="UTF-8"?>',
    `<testsuites${attributes({ name: 'build-sheet', ...counts })}>`,
    ...suites.flatMap(({ xml }) => xml),
    '</testsuites>',
  ];
  return lines.map((line) => `${line}\n`).join('');
}

type Suite = { tests: number; failures: number; errors: number; xml: string[] };

function fileSuite(file: CheckedFile): Suite {
  const told = findingsOf(file);
  const cases = told.map((one) => failedCase(one, file.path));
  const passed = [`    <testcase${attributes({ name: 'no findings', classname: file.path })}/>`];
  return suite(file.path, told.length === 0 ? [passed] : cases, { failures: told.length, errors: 0 });
}

function suite(name: string, cases: readonly (readonly string[])[], bad: { failures: number; errors: number }): Suite {
  const tests = cases.length;
  const head = `  <testsuite${attributes({ name, tests, ...bad })}>`;
  return { tests, ...bad, xml: [head, ...cases.flat(), '  </testsuite>'] };
}

function failedCase({ rule, field, severity, message, start }: ToldAt, path: string): string[] {
  return [
    `    <testcase${attributes({ name: field === '' ? rule : `${rule} at ${field}`, classname: path })}>`,
    `      <failure${attributes({ type: severity, message })}>${escaped(`${path}:${start.line}:${start.column}: ${message}`)}</failure>`,
    '    </testcase>',
  ];
}

/** What could not be checked, as cases with an error. */
function unreadSuite({ complaints }: CheckResult): Suite[] {
  if (complaints.length === 0) return [];
  const cases = complaints.map(({ path = 'build-sheet', message }) => [
    `    <testcase${attributes({ name: 'can be checked', classname: path })}>`,
    `      <error${attributes({ type: 'unread', message })}/>`,
    '    </testcase>',
  ]);
  return [suite('what could not be checked', cases, { failures: 0, errors: complaints.length })];
}

function attributes(values: Record<string, string | number>): string {
  return Object.entries(values)
    .map(([name, value]) => ` ${name}="${escaped(String(value))}"`)
    .join('');
}

const ENTITIES: Record<string, string> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;', "'": '&apos;' };

/** A text as XML 1.0 takes it, without the characters that it has no way to write. */
function escaped(text: string): string {
  return text
    .replaceAll(/[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\u{10000}-\u{10ffff}]/gu, '\ufffd')
    .replaceAll(/[&<>"']/g, (character) => ENTITIES[character] ?? character);
}
