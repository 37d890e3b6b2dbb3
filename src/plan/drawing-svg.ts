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
  const shapes = drawing.shapes.map((shape) => drawShape(shape, at)).join('');
  const height = round(deep * scale);
  return (
    `<svg xmlns="http://www.w3.org/2000/svg" role="img" viewBox="0 0 ${options.width} ${height}" width="${options.width}" ` +
    `height="${height}" font-family="sans-serif" font-size="11"><title>${escapeXml(options.title)}</title>` +
    `<defs><pattern id="hatch" width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">` +
    `<line x1="0" y1="0" x2="0" y2="6" stroke="currentColor" stroke-width="1"/></pattern></defs>` +
    `<g fill="none" stroke="currentColor" stroke-width="1.2">${shapes}</g>${sizes(drawing, at, options)}</svg>`
  );
}

type Places = {
  readonly x: (x: number) => number;
  readonly y: (y: number) => number;
  readonly length: (mm: number) => number;
};

function drawShape(shape: Shape, at: Places): string {
  switch (shape.kind) {
    case 'part':
      return box(shape, at, 'stroke-width="2"');
    case 'jaw':
      return box(shape, at, shape.fixed ? 'fill="url(#hatch)"' : 'stroke-dasharray="5 3"');
    case 'stop':
      return box(shape, at, 'fill="url(#hatch)" stroke-width="2"');
    case 'parallel':
      return box(shape, at, 'stroke-dasharray="2 3" stroke-width="0.8"');
    case 'hole': {
      const radius = Math.max(at.length(shape.diameter / 2), 1.5);
      const name = shape.name === '' ? '' : label(at.x(shape.x) + radius + 2, at.y(shape.y) - radius, shape.name);
      return `<circle cx="${at.x(shape.x)}" cy="${at.y(shape.y)}" r="${radius}"/>${name}`;
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
