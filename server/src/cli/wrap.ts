import { eastAsianWidth } from 'get-east-asian-width';

/** A text of one paragraph in lines of so many columns at most; a number stays with its unit, a longer word stands alone. */
export function wrapped(text: string, columns: number): string {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(/(?<!\d) /)) {
    if (line !== '' && widthOf(line) + 1 + widthOf(word) > columns) {
      lines.push(line);
      line = word;
    } else line = line === '' ? word : `${line} ${word}`;
  }
  return [...lines, line].join('\n');
}

/** What stands in no column of its own, such as an accent on the letter before. */
const UNSEEN = /[\p{Default_Ignorable_Code_Point}\p{Cc}\p{Cf}\p{Mn}\p{Me}\p{Cs}]/gu;
/** What a terminal draws as a picture two columns wide. */
const PICTURE = /\p{Emoji_Presentation}|\ufe0f/u;

/** The columns a text takes in a terminal (Unicode Standard Annexes #11 and #29). */
export function widthOf(text: string): number {
  if (/^[ -~]*$/.test(text)) return text.length;
  let width = 0;
  for (const { segment } of new Intl.Segmenter().segment(text)) width += widthOfCluster(segment);
  return width;
}

function widthOfCluster(cluster: string): number {
  const seen = cluster.replaceAll(UNSEEN, '').codePointAt(0);
  if (seen === undefined) return 0;
  return PICTURE.test(cluster) ? 2 : eastAsianWidth(seen);
}

/** A text of the user as a terminal may show it: nothing in it moves the cursor or turns the direction of writing. */
export function harmless(text: string): string {
  return text.replaceAll('\t', ' ').replaceAll(/[\p{Cc}\u2028\u2029\u202a-\u202e\u2066-\u2069]/gu, '\ufffd');
}
