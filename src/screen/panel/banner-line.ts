/** The first row: where we are and how many are done, whole at every width; the title of the operation gives way. */
import { fillLine, type Line, lineOf, widthOf } from '../parts/lines.ts';
import type { Banner } from './panel.ts';

/** Shorter than this a title says nothing. */
const shortestTitle = 8;
const gap = '  ';

/**
 * One line of exactly `columns`. Example at 50: " Op 90 CLEARANCE  12 good, 9 left            19:42 ".
 */
export function bannerLine(banner: Banner, columns: number): Line {
  const right = `${banner.right} `;
  const least = widthOf(lineOf(banner.place.at(-1) ?? ''));
  const tails = countForms(banner.counts).map((counts) => (counts === '' ? right : `${counts}${gap}${right}`));
  const roomBeside = (tail: string): number => columns - widthOf(lineOf(tail)) - gap.length - 1;
  const tail = tails.find((words) => roomBeside(words) >= least) ?? tails.at(-1) ?? right;
  const room = roomBeside(tail);
  const place = banner.place.find((words) => widthOf(lineOf(words)) <= room) ?? banner.place.at(-1) ?? '';
  const left = room - widthOf(lineOf(place)) - gap.length;
  const hasTitle = banner.title !== '' && left >= Math.min(shortestTitle, banner.title.length);
  const head = hasTitle ? titled(place, banner.title, left) : ` ${place}`;
  const headRoom = Math.max(0, columns - widthOf(lineOf(tail)));
  return [
    ...fillLine(lineOf(head, 'reverse'), headRoom, 'reverse'),
    ...fillLine(lineOf(tail, 'reverse'), columns - headRoom, 'reverse'),
  ];
}

/** The counts in fewer and fewer words: what is scrap gives way first, then what is left; what is good or suspect never. */
function countForms(counts: string): readonly string[] {
  const without = (end: RegExp, from: string): string =>
    from
      .split(', ')
      .filter((part) => !end.test(part))
      .join(', ');
  const noScrap = without(/ scrap$/, counts);
  return [counts, noScrap, without(/ left$/, noScrap)];
}

/** Operation number, title, then the variant's word, so that it reads as a person would say it. */
function titled(place: string, title: string, room: number): string {
  const shown = title.length <= room ? title : `${title.slice(0, Math.max(0, room - 1)).trimEnd()}~`;
  return place === '' ? ` ${shown}` : ` ${place}${gap}${shown}`;
}
