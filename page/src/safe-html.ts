/** What a page of the server is made of; everything else is left out, and so is every attribute. */
const KEPT = new Set(
  'P BR STRONG EM CODE PRE UL OL LI TABLE THEAD TBODY TR TH TD H1 H2 H3 H4 HR BLOCKQUOTE DEL SPAN A'.split(' '),
);
const DROPPED = new Set('SCRIPT STYLE TEMPLATE IFRAME OBJECT SVG MATH TITLE TEXTAREA NOSCRIPT'.split(' '));

/** Markup with nothing in it but plain text elements. */
export function safeHtml(html: string): string {
  const { body } = new DOMParser().parseFromString(html, 'text/html');
  for (const element of [...body.querySelectorAll('*')]) {
    const name = element.tagName.toUpperCase();
    if (DROPPED.has(name)) element.remove();
    else if (!KEPT.has(name)) element.replaceWith(...element.childNodes);
    else for (const { name: attribute } of [...element.attributes]) element.removeAttribute(attribute);
  }
  return body.innerHTML;
}
