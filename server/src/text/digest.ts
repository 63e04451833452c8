/**
 * A short name of a text that is the same for the same text: two 32-bit FNV-1a hashes from different beginnings (Fowler, Noll
 * and Vo; RFC 9923) and the length.
 */
export function digest(text: string): string {
  let one = 0x811c9dc5;
  let other = 0x01000193;
  for (let index = 0; index < text.length; index++) {
    const code = text.charCodeAt(index);
    one = Math.imul(one ^ code, 0x01000193);
    other = Math.imul(other ^ (code + index), 0x01000193);
  }
  return [one >>> 0, other >>> 0, text.length].map((part) => part.toString(36)).join('-');
}
