/** A text as markup shows it letter by letter. */
export function escaped(text: string): string {
  return text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;').replaceAll('"', '&quot;');
}

/** A length of a drawing, to a tenth. */
export function round(value: number): number {
  return Math.round(value * 10) / 10;
}

/** A picture with what it is called and shows, for those who hear it. */
export function picture(
  { title, description }: { title: string; description: string },
  size: { width: number; height: number },
  id: string,
  parts: readonly string[],
): string {
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${size.width} ${size.height}" role="img" aria-labelledby="${id}-title ${id}-text" font-family="sans-serif" font-size="12" fill="currentColor">`,
    `<title id="${id}-title">${escaped(title)}</title><desc id="${id}-text">${escaped(description)}</desc>`,
    ...parts,
    '</svg>',
  ].join('');
}

/** A line between two points; with dashes, where dashes are given. */
export function stroke(x1: number, y1: number, x2: number, y2: number, look = ''): string {
  return `<line x1="${round(x1)}" y1="${round(y1)}" x2="${round(x2)}" y2="${round(y2)}" stroke="currentColor"${look && ` ${look}`}/>`;
}

/** A text at a point; from there to the right, unless an anchor is given. */
export function label(x: number, y: number, text: string, anchor?: 'middle' | 'end', look = ''): string {
  return `<text x="${round(x)}" y="${round(y)}"${anchor ? ` text-anchor="${anchor}"` : ''}${look && ` ${look}`}>${escaped(text)}</text>`;
}
