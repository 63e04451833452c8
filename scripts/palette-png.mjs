// A picture of a screen as a PNG with a palette: a third of the size, and no difference to be seen.
import { crc32, deflateSync } from 'node:zlib';

/** Most colors of a picture, and what is left of each of the three when like ones are counted together. */
const COLORS = 96;
const BITS = 5;

/** A PNG with a palette, made from any PNG. `page` is one of a browser, which decodes it. */
export async function withPalette(page, png) {
  const { width, height, palette, pixels } = await page.evaluate(inColors, [png.toString('base64'), COLORS, BITS]);
  const indices = Buffer.from(pixels, 'base64');
  const rows = Buffer.alloc((width + 1) * height); // each row begins with its filter: none
  for (let y = 0; y < height; y++) indices.copy(rows, y * (width + 1) + 1, y * width, (y + 1) * width);
  const header = Buffer.alloc(13);
  header.writeUInt32BE(width, 0);
  header.writeUInt32BE(height, 4);
  header.set([8, 3], 8); // eight bits for each pixel, that are the number of a color
  return Buffer.concat([
    Buffer.from('\x89PNG\r\n\x1a\n', 'latin1'),
    chunk('IHDR', header),
    chunk('PLTE', Buffer.from(palette.flat())),
    chunk('IDAT', deflateSync(rows, { level: 9 })),
    chunk('IEND', Buffer.alloc(0)),
  ]);
}

function chunk(kind, content) {
  const body = Buffer.concat([Buffer.from(kind, 'latin1'), content]);
  const ends = Buffer.alloc(8);
  ends.writeUInt32BE(content.length, 0);
  ends.writeUInt32BE(crc32(body), 4);
  return Buffer.concat([ends.subarray(0, 4), body, ends.subarray(4)]);
}

/** The pixels of a picture as numbers of colors that are frequent or like no other, each pixel the nearest. Runs in a page. */
async function inColors([png, most, bits]) {
  const bytes = Uint8Array.from(atob(png), (one) => one.charCodeAt(0));
  const image = await createImageBitmap(new Blob([bytes], { type: 'image/png' }));
  const { width, height } = image;
  const canvas = new OffscreenCanvas(width, height).getContext('2d');
  canvas.drawImage(image, 0, 0);
  const { data } = canvas.getImageData(0, 0, width, height);
  const kindOf = (at) => [0, 1, 2].reduce((kind, channel) => (kind << bits) | (data[at + channel] >> (8 - bits)), 0);
  const kinds = new Map();
  for (let at = 0; at < data.length; at += 4) {
    const kind = kindOf(at);
    const found = kinds.get(kind) ?? { count: 0, exact: new Map() };
    const exact = (data[at] << 16) | (data[at + 1] << 8) | data[at + 2];
    found.count += 1;
    found.exact.set(exact, (found.exact.get(exact) ?? 0) + 1);
    kinds.set(kind, found);
  }
  const colors = [...kinds.values()].map(({ count, exact }) => {
    const [color] = [...exact].toSorted(([, one], [, other]) => other - one)[0];
    return { count, color: [color >> 16, (color >> 8) & 255, color & 255], off: Infinity };
  });
  const distance = (one, other) => [0, 1, 2].reduce((sum, at) => sum + (one[at] - other[at]) ** 2, 0);
  const palette = [];
  while (palette.length < Math.min(most, colors.length)) {
    const worth = ({ count, off }) => Math.sqrt(count) * Math.min(off, 1e6); // a rare color that is like no other stays
    const { color } = colors.reduce((best, one) => (worth(one) > worth(best) ? one : best));
    palette.push(color);
    for (const one of colors) one.off = Math.min(one.off, distance(one.color, color));
  }
  const nearest = new Map();
  const pixels = new Uint8Array(width * height);
  for (let at = 0; at < data.length; at += 4) {
    const kind = kindOf(at);
    if (!nearest.has(kind)) {
      const far = palette.map((color) =>
        color.reduce((sum, part, channel) => sum + (part - data[at + channel]) ** 2, 0),
      );
      nearest.set(kind, far.indexOf(Math.min(...far)));
    }
    pixels[at / 4] = nearest.get(kind);
  }
  const text = Array.from(pixels, (one) => String.fromCharCode(one)).join('');
  return { width, height, palette, pixels: btoa(text) };
}
