/** What does not fit in the page that is open; runs in the browser. */
export function describePage() {
  const faults = [];
  const wide = document.scrollingElement.scrollWidth;
  if (wide > innerWidth) {
    const over = [...document.querySelectorAll('main *')].filter(
      (one) => one.getBoundingClientRect().right > innerWidth + 1,
    );
    const first = over.at(0);
    faults.push(`${wide} px wide in ${innerWidth}: ${first?.tagName} ${first?.textContent.slice(0, 80)}`);
  }
  for (const svg of document.querySelectorAll('svg')) {
    const box = svg.getBoundingClientRect();
    const title = svg.querySelector('title')?.textContent;
    const texts = [...svg.querySelectorAll('text')].map((one) => ({
      text: one.textContent,
      box: one.getBoundingClientRect(),
    }));
    for (const [index, one] of texts.entries()) {
      const { left, right, top, bottom } = one.box;
      if (left < box.left - 1 || right > box.right + 1 || top < box.top - 1 || bottom > box.bottom + 1)
        faults.push(`"${one.text}" outside of "${title}"`);
      for (const other of texts.slice(index + 1)) {
        const across = Math.min(right, other.box.right) - Math.max(left, other.box.left);
        const down = Math.min(bottom, other.box.bottom) - Math.max(top, other.box.top);
        if (across > 1 && down > (bottom - top) / 4) faults.push(`"${one.text}" over "${other.text}" in "${title}"`);
      }
    }
  }
  for (const table of document.querySelectorAll('table')) {
    if (table.rows.length < 2) faults.push(`a table without a row: ${table.textContent.slice(0, 60)}`);
  }
  for (const heading of document.querySelectorAll('h2')) {
    if (!heading.nextElementSibling) faults.push(`nothing below "${heading.textContent}"`);
  }
  return faults;
}
