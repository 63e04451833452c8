import type { Rule } from '../checking/rule.ts';
import { rules } from '../generated/rules.ts';
import { problemCodes } from '../sheet/problem.ts';

/** What a code of a diagnosis stands for. */
export type AboutCode = Pick<Rule, 'title' | 'why'> & Partial<Rule>;

/** What a rule or a problem with the text is about, by its code. */
export function aboutCode(code: string): AboutCode | undefined {
  const rule = rules.find(({ id }) => id === code);
  return rule ?? (code in problemCodes ? problemCodes[code as keyof typeof problemCodes] : undefined);
}
