import type { Checked } from '../checking/checked.ts';
import { type Block, paragraph, prose, type Span } from '../report/page.ts';
import { entryAt } from '../sheet/entry.ts';
import { atAGlance } from './glance.ts';
import type { Explanation } from './hover.ts';
import { nextOf } from './questions.ts';

/** How many questions are taken in at a glance. */
const MOST_QUESTIONS = 6;

/** On the title, and on the format of a sheet without one, also what to ask next. */
export function withQuestions(
  explanation: Explanation | undefined,
  checked: Checked,
  offset: number,
): Explanation | undefined {
  const { root, values } = checked.sheet;
  const [field, ...inner] = entryAt(root, offset).path;
  const isTitle = field === (values.title === undefined ? 'format' : 'title') && inner.length === 0;
  return explanation && isTitle
    ? { ...explanation, page: atAGlance([...explanation.page, ...nextQuestions(checked)]) }
    : explanation;
}

function nextQuestions(checked: Checked): Block[] {
  const { questions, left } = nextOf(checked, MOST_QUESTIONS);
  if (questions.length === 0) return [];
  const items = questions.map(({ text, at }): Span[] => [...prose(text), ' ', { code: at }]);
  return [paragraph({ strong: left > 0 ? `To ask next, and ${left} more` : 'To ask next' }), { kind: 'list', items }];
}
