/** Facts and cautions as lines: whole sentences only, so that nothing is read that says half of what it means. */
import { DEFERRING_LINE } from '../../plan/cautions.ts';
import { emptyLine, type Line, lineOf, wrapText } from '../parts/lines.ts';
import type { Panel } from './panel.ts';

/** The deferring line in fewer and fewer words. */
const deferringLines = [
  DEFERRING_LINE,
  "Reminders only: your machine's manual, training and local rules come first.",
  'Reminders: manual, training and local rules first.',
] as const;

/** Whatever does not fit is a key away. */
const moreLine = '... more below: Down, or 2';
/** A text of the plan takes at most as many rows; what the program says itself is shorter at any width. */
const mostRows = 8;

type Text = Pick<Panel, 'facts' | 'cautions' | 'weight' | 'warnsAfter'>;

/** Rows that all of it takes at a width. */
export function textRows(text: Text, columns: number): number {
  return allLines(text, columns).length;
}

/**
 * As much as fits into `rows`, whole sentences: cautions keep at least one with its deferring line where words matter, and
 * beside digits before the first piece.
 */
export function textLines(text: Text, columns: number, rows: number): readonly Line[] {
  if (rows <= 0) return [];
  const all = allLines(text, columns);
  if (all.length <= rows) return all;
  const kept = keptForCautions(text, columns, rows);
  const cautions = cautionLines(text, columns, text.weight === 'words' ? kept : Math.min(2, kept));
  const facts = fitting(text, columns, rows - cautions.length, rows);
  const rest = rows - facts.length;
  const isKept = text.weight === 'words' && cautions.length > 0;
  return [...facts, ...(isKept ? cautions : cautionLines(text, columns, rest))].slice(0, rows);
}

function keptForCautions({ weight, warnsAfter, facts }: Text, columns: number, rows: number): number {
  const half = weight === 'words' ? Math.max(2, Math.ceil(rows / 2)) : 0;
  if (warnsAfter === undefined) return half;
  const needed = facts.slice(0, warnsAfter).flatMap((fact) => wrapText(fact, columns, mostRows));
  // On a card the facts that are left over take a row to say so.
  const left = Math.max(0, rows - needed.length - (weight === 'words' && facts.length > warnsAfter ? 1 : 0));
  return weight === 'words' ? Math.min(half, left) : left;
}

function allLines({ facts, cautions }: Text, columns: number): readonly Line[] {
  const said = facts.flatMap((fact) => wrapText(fact, columns, mostRows));
  if (cautions.length === 0) return said;
  const warned = cautionLines({ cautions }, columns, Number.POSITIVE_INFINITY);
  return said.length === 0 ? warned : [...said, emptyLine, ...warned];
}

/** Whole cautions, injury first, with the deferring line in the words that leave them most room. */
function cautionLines({ cautions }: Pick<Text, 'cautions'>, columns: number, rows: number): readonly Line[] {
  if (cautions.length === 0 || rows < 2) return [];
  const deferring = deferringLines.find((line) => line.length <= columns) ?? deferringLines[2];
  const last = wrapText(deferring, columns, mostRows);
  const kept: Line[] = [];
  for (const caution of cautions) {
    const lines = wrapText(`! ${caution}`, columns, mostRows);
    if (kept.length + lines.length + last.length > rows) break;
    kept.push(...lines);
  }
  return kept.length === 0 ? [] : [...kept, ...last];
}

/** Whole facts from the first on; where the card can be leafed through, the last row says so when some are left over. */
function fitting({ facts, weight }: Text, columns: number, rows: number, most: number): readonly Line[] {
  const mark = weight === 'words' ? [lineOf(moreLine)] : [];
  const blocks = facts.map((fact) => wrapText(fact, columns, mostRows));
  const total = blocks.reduce((sum, block) => sum + block.length, 0);
  if (total <= rows) return blocks.flat();
  const kept: Line[] = [];
  for (const block of blocks) {
    if (kept.length + block.length > rows - mark.length) break;
    kept.push(...block);
  }
  if (rows <= 0) return [];
  // A text longer than all the room there is would never be seen: it is cut there, which its end shows.
  const [first] = facts;
  const isCut = weight === 'words' && first !== undefined && rows > mark.length && (blocks[0]?.length ?? 0) > most;
  return [...(isCut ? wrapText(first, columns, rows - mark.length) : kept), ...mark];
}
