import { version } from '../../../../package.json';
import { aboutCode } from '../../features/about-code.ts';
import { type CheckedFile, type CheckResult, fingerprintsOf, type ToldAt } from '../check-result.ts';

const levels = { error: 'error', warning: 'warning', information: 'note', hint: 'note' } as const;

/**
 * SARIF 2.1.0 of OASIS. A result is known again by rule, field and stages, never by a line; what a sheet accepts is there
 * as suppressed, with the reason.
 */
export function sarif({ files, complaints, faults }: CheckResult): string {
  const rules = [...new Set(files.flatMap(({ told }) => told.map(({ rule }) => rule)))].toSorted();
  const indexOf = new Map(rules.map((rule, index) => [rule, index]));
  const notifications = [...complaints, ...faults].map(({ path, message }) => ({
    level: 'error',
    message: { text: message },
    ...(path && { locations: [{ physicalLocation: { artifactLocation: { uri: uriOf(path) } } }] }),
  }));
  const log = {
    $schema: 'https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json',
    version: '2.1.0',
    runs: [
      {
        tool: { driver: { name: 'build-sheet', semanticVersion: version, rules: rules.map(ruleOf) } },
        columnKind: 'utf16CodeUnits',
        invocations: [{ executionSuccessful: notifications.length === 0, toolExecutionNotifications: notifications }],
        results: files.flatMap((file) => resultsOf(file, indexOf)),
      },
    ],
  };
  return `${JSON.stringify(log, null, 2)}\n`;
}

function ruleOf(id: string) {
  const about = aboutCode(id);
  if (!about) return { id };
  const { title, why, remedy } = about;
  return {
    id,
    shortDescription: { text: title },
    fullDescription: { text: why },
    ...(remedy && { help: { text: remedy } }),
  };
}

function resultsOf(file: CheckedFile, indexOf: ReadonlyMap<string, number>) {
  const ids = fingerprintsOf(file.told);
  return file.told.map((told, index) => {
    const { rule, severity, message, start, end, related, accepted } = told;
    return {
      ruleId: rule,
      ruleIndex: indexOf.get(rule),
      level: levels[severity],
      message: { text: message },
      locations: [{ ...location(file.path, start, end), ...logical(told) }],
      ...(related.length > 0 && {
        relatedLocations: related.map((other) => ({
          ...location(other.path, other.start),
          message: { text: other.message },
        })),
      }),
      partialFingerprints: { 'ruleFieldStages/v1': ids[index] },
      ...(accepted !== undefined && { suppressions: [{ kind: 'inSource', justification: accepted }] }),
    };
  });
}

function location(path: string, start: ToldAt['start'], end?: ToldAt['end']) {
  const region = {
    startLine: start.line,
    startColumn: start.column,
    ...(end && { endLine: end.line, endColumn: end.column }),
  };
  return { physicalLocation: { artifactLocation: { uri: uriOf(path) }, region } };
}

function logical({ field }: ToldAt) {
  return field === '' ? {} : { logicalLocations: [{ fullyQualifiedName: field, kind: 'member' }] };
}

/** A path as a relative reference of an address. */
function uriOf(path: string): string {
  return path.split('/').map(encodeURIComponent).join('/');
}
