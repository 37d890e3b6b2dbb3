/**
 * A document between the model and its forms. Every number is written into it once, as text, so that terminal, Markdown
 * and page cannot disagree; a form only lays it out and makes the text harmless for its place. Text in here is raw.
 */

/** A column of a table; numbers stand to the right. */
export interface Column {
  readonly title: string;
  readonly align: 'left' | 'right';
}

/** One value of a run or piece-time chart. `text` is what the tables say of it. */
export interface ChartValue {
  readonly label: string;
  readonly value: number;
  readonly text: string;
  /** Drawn hollow: left out of the timing, or outside the limits. */
  readonly marked: boolean;
}

export type Chart =
  | {
      readonly kind: 'values';
      readonly title: string;
      readonly values: readonly ChartValue[];
      /** Horizontal lines with their labels: median, limits. */
      readonly lines: readonly { readonly value: number; readonly text: string; readonly strong: boolean }[];
      readonly band: {
        readonly low: number;
        readonly high: number;
        readonly lowText: string;
        readonly highText: string;
      } | null;
      readonly markMeans: string;
    }
  | {
      readonly kind: 'bars';
      readonly title: string;
      /** One bar, or plan above actual. */
      readonly rows: readonly {
        readonly name: string;
        readonly bars: readonly { readonly value: number; readonly text: string; readonly hollow: boolean }[];
      }[];
      /** What the solid and the hollow bar are; empty when there is one kind. */
      readonly legend: readonly { readonly text: string; readonly hollow: boolean }[];
    };

export type Block =
  | { readonly kind: 'heading'; readonly text: string }
  | { readonly kind: 'subheading'; readonly text: string }
  | { readonly kind: 'sentence'; readonly text: string }
  | { readonly kind: 'caution'; readonly text: string }
  | { readonly kind: 'list'; readonly items: readonly string[]; readonly boxes: boolean }
  | { readonly kind: 'facts'; readonly rows: readonly (readonly [name: string, value: string])[] }
  | { readonly kind: 'table'; readonly columns: readonly Column[]; readonly rows: readonly (readonly string[])[] }
  | { readonly kind: 'chart'; readonly chart: Chart }
  /** A drawing made by our own code: the only text that goes into a page as it is. */
  | { readonly kind: 'drawing'; readonly svg: string; readonly label: string }
  /** Boxes to cross off by hand, in rows of ten. */
  | { readonly kind: 'tally'; readonly name: string; readonly count: number }
  | { readonly kind: 'new page' };

export interface PaperDocument {
  readonly title: string;
  readonly subtitle: string;
  readonly blocks: readonly Block[];
}

/** A column whose cells stand to the left. */
export const left = (title: string): Column => ({ title, align: 'left' });
/** A column whose cells stand to the right. */
export const right = (title: string): Column => ({ title, align: 'right' });

/** A heading and its blocks; nothing at all when there are no blocks. */
export const section = (heading: string, blocks: readonly Block[]): Block[] =>
  blocks.length === 0 ? [] : [{ kind: 'heading', text: heading }, ...blocks];

/** A table, or nothing when it has no rows. */
export const tableOf = (columns: readonly Column[], rows: readonly (readonly string[])[]): Block[] =>
  rows.length === 0 ? [] : [{ kind: 'table', columns, rows }];

/** A sentence as a block. */
export const sentence = (text: string): Block => ({ kind: 'sentence', text });
