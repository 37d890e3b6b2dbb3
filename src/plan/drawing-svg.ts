/**
 * A setup's drawing as SVG for sheet and report: the same model as on the screen, to scale, with holes named and the
 * overall size written. Lines and hatching only, so that it prints in black and can be read without colour.
 */
import type { Drawing, Rectangle, Shape } from './drawing.ts';

export type SvgOptions = {
  /** Width of the picture in CSS pixels; the height follows from the scale. */
  readonly width: number;
  /** What the picture shows, for readers that cannot see it. */
  readonly title: string;
  /** Begins the ids inside the picture, so that several stand on one page; made from the title when it is left out. */
  readonly id?: string;
  /** Makes a length into text in the plan's units. */
  readonly formatLength: (mm: number) => string;
};

/** One `<svg>` element; no script, no reference to anything outside it. */
export function drawAsSvg(drawing: Drawing, options: SvgOptions): string {
  const { extent } = drawing;
  const margin = Math.max(extent.x1 - extent.x0, extent.y1 - extent.y0) * 0.08;
  const wide = extent.x1 - extent.x0 + 2 * margin;
  const deep = extent.y1 - extent.y0 + 2 * margin;
  const scale = options.width / wide;
  const at: Places = {
    x: (x) => round((x - extent.x0 + margin) * scale),
    y: (y) => round((extent.y1 + margin - y) * scale),
    length: (mm) => round(mm * scale),
  };
  const hatch = `${idOf(options)}-hatch`;
  const names = placeNames(drawing, at, options.width);
  const shapes = drawing.shapes.map((shape) => drawShape(shape, at, hatch)).join('') + names;
  const height = round(deep * scale);
  return (
    `<svg xmlns="http://www.w3.org/2000/svg" role="img" viewBox="0 0 ${options.width} ${height}" width="${options.width}" ` +
    `height="${height}" font-family="sans-serif" font-size="11"><title>${escapeXml(options.title)}</title>` +
    `<defs><pattern id="${hatch}" width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">` +
    `<line x1="0" y1="0" x2="0" y2="6" stroke="currentColor" stroke-width="1"/></pattern></defs>` +
    `<g fill="none" stroke="currentColor" stroke-width="1.2">${shapes}</g>${sizes(drawing, at, options)}</svg>`
  );
}

type Places = {
  readonly x: (x: number) => number;
  readonly y: (y: number) => number;
  readonly length: (mm: number) => number;
};

function drawShape(shape: Shape, at: Places, hatch: string): string {
  switch (shape.kind) {
    case 'part':
      return box(shape, at, 'stroke-width="2"');
    case 'jaw':
      return box(shape, at, shape.fixed ? `fill="url(#${hatch})"` : 'stroke-dasharray="5 3"');
    case 'stop':
      return box(shape, at, `fill="url(#${hatch})" stroke-width="2"`);
    case 'parallel':
      return box(shape, at, 'stroke-dasharray="2 3" stroke-width="0.8"');
    case 'hole': {
      const radius = Math.max(at.length(shape.diameter / 2), 1.5);
      const title = shape.name === '' ? '' : `<title>${escapeXml(shape.name)}</title>`;
      return `<circle cx="${at.x(shape.x)}" cy="${at.y(shape.y)}" r="${radius}">${title}</circle>`;
    }
    case 'pass': {
      const ends = `x1="${at.x(shape.from.x)}" y1="${at.y(shape.from.y)}" x2="${at.x(shape.to.x)}" y2="${at.y(shape.to.y)}"`;
      const width = Math.max(at.length(shape.width), 1);
      return `<line ${ends} stroke-opacity="0.25" stroke-width="${width}"/><line ${ends} stroke-dasharray="8 3"/>`;
    }
    case 'zero': {
      const [x, y] = [at.x(shape.x), at.y(shape.y)];
      return `<path d="M${x - 9} ${y}H${x + 9}M${x} ${y - 9}V${y + 9}" stroke-width="1.6"/>${label(x + 5, y - 6, 'X0 Y0')}`;
    }
    default:
      return shape satisfies never;
  }
}

/** Height of a line of text, and what a letter takes on average, in CSS pixels at the size the picture is lettered in. */
const LINE = 11;
const LETTER = 6.2;

type Box = { readonly x0: number; readonly x1: number; readonly y0: number; readonly y1: number };

/**
 * The names of the holes, each place named once however many tools come to it. A name goes where it touches no other name:
 * right above, right below, left above or left below its hole; where none is free it is left to the hole's own title.
 */
function placeNames(drawing: Drawing, at: Places, width: number): string {
  const taken: Box[] = [];
  const seen = new Set<string>();
  return drawing.shapes
    .flatMap((shape) => {
      if (shape.kind !== 'hole' || shape.name === '') return [];
      const place = `${at.x(shape.x)},${at.y(shape.y)}`;
      if (seen.has(place)) return [];
      seen.add(place);
      const box = nameBoxes(shape, at).find((one) => one.x0 >= 0 && one.x1 <= width && !taken.some(touches(one)));
      if (box === undefined) return [];
      taken.push(box);
      return [label(round(box.x0), round(box.y1 - 2), shape.name)];
    })
    .join('');
}

function nameBoxes(shape: Extract<Shape, { kind: 'hole' }>, at: Places): readonly Box[] {
  const away = Math.max(at.length(shape.diameter / 2), 1.5) + 2;
  const [x, y, long] = [at.x(shape.x), at.y(shape.y), shape.name.length * LETTER];
  const [above, below] = [y - away * 0.7 - LINE, y + away * 0.7];
  return [x + away * 0.7, x - away * 0.7 - long].flatMap((x0) =>
    [above, below].map((y0) => ({ x0, x1: x0 + long, y0, y1: y0 + LINE })),
  );
}

const touches =
  (a: Box) =>
  (b: Box): boolean =>
    a.x0 < b.x1 && b.x0 < a.x1 && a.y0 < b.y1 && b.y0 < a.y1;

/** An id of letters, digits and dashes; two titles give two ids. */
function idOf({ id, title }: SvgOptions): string {
  const from = id ?? title;
  const tidy = from
    .toLowerCase()
    .replace(/[^a-z0-9]+/gu, '-')
    .slice(0, 40);
  let sum = 0;
  for (const sign of from) sum = (Math.imul(sum, 31) + (sign.codePointAt(0) ?? 0)) >>> 0;
  return `d${tidy}-${sum.toString(36)}`;
}

function box(area: Rectangle, at: Places, style: string): string {
  const size = `width="${at.length(area.x1 - area.x0)}" height="${at.length(area.y1 - area.y0)}"`;
  return `<rect x="${at.x(area.x0)}" y="${at.y(area.y1)}" ${size} ${style}/>`;
}

function sizes(drawing: Drawing, at: Places, options: SvgOptions): string {
  const part = drawing.shapes.find((shape) => shape.kind === 'part');
  if (part?.kind !== 'part') return '';
  const middle = (at.x(part.x0) + at.x(part.x1)) / 2;
  const text = `${options.formatLength(part.x1 - part.x0)} x ${options.formatLength(part.y1 - part.y0)}`;
  return `<text x="${middle}" y="${at.y(part.y0) - 4}" text-anchor="middle" fill="currentColor">${escapeXml(text)}</text>`;
}

function label(x: number, y: number, text: string): string {
  return `<text x="${x}" y="${y}" fill="currentColor" stroke="none">${escapeXml(text)}</text>`;
}

function round(value: number): number {
  return Math.round(value * 100) / 100;
}

function escapeXml(text: string): string {
  return text.replace(/[<>&"']/g, (character) => `&#${character.codePointAt(0) ?? 63};`);
}
