/**
 * The reference page of the plan language, made from the schema itself: every key with its meaning, form and default. What a
 * field says of itself is in its metadata (fields.ts); this only walks and lays out.
 */
import type * as z from 'zod';
import type { About } from './fields.ts';
import { planSchema } from './plan.ts';

/** What one key is, as a row of the page. */
interface Row {
  readonly key: string;
  readonly needed: boolean;
  readonly about: Partial<About>;
  readonly inner: readonly Section[];
}

/** A map of the language: its keys, under a heading. */
interface Section {
  readonly title: string;
  readonly meaning: string;
  readonly rows: readonly Row[];
}

const HEAD = `# The job plan

A job plan is a YAML 1.2 file, \`format: 1\`. A bare length is in the plan's \`units\`; every value may carry its own unit:
\`6 mm\`, \`1/4 in\`, \`no. 7\`, \`letter F\`, \`20 min\`, \`45 s\`. A \`#\` begins a comment, so a number drill is written \`no. 7\` or, in
quotes, \`"#7"\`. A text with a comma inside braces needs quotes. Keys that are not listed here are refused.

Points and lines are written as on the drawing, from the corner of the part that \`part.datum\` names: +X to the right, +Y away
from the user, +Z up. Each setup turns them into its own coordinates. For a setup
"on edge" or "on end" they are written from the zero of that setup, as the part lies there.
`;

/**
 * The page as Markdown.
 *
 * Example: it has a heading `## tools` and under it a row for `point angle` with "118 deg for a drill, 90 deg for a spot".
 */
export function schemaPage(): string {
  const root = sectionOf('The plan', planSchema('mm'));
  const sections = root === undefined ? [] : flatten(root);
  return `${[HEAD, ...sections.map(formatSection)].join('\n')}`;
}

function flatten(section: Section): readonly Section[] {
  return [section, ...section.rows.flatMap((row) => row.inner.flatMap(flatten))];
}

function formatSection(section: Section): string {
  const rows = section.rows.map((row) => {
    const form = row.about.unit === 'length' ? 'length' : (row.about.unit ?? (row.inner.length > 0 ? 'see below' : ''));
    const fallback = row.needed ? '**needed**' : (row.about.default ?? '-');
    return `| \`${row.key}\` | ${cell(row.about.meaning ?? '')} | ${cell(form)} | ${cell(fallback)} |`;
  });
  const head = ['| key | meaning | form | default |', '|---|---|---|---|'];
  return [`## ${section.title}`, '', section.meaning, '', ...head, ...rows, ''].join('\n');
}

const cell = (text: string): string => text.replaceAll('|', '\\|');

/** The parts of a schema's definition that are walked. */
interface Walked {
  readonly type: string;
  readonly innerType?: z.core.$ZodType;
  readonly in?: z.core.$ZodType;
  readonly options?: readonly z.core.$ZodType[];
  readonly element?: z.core.$ZodType;
  readonly valueType?: z.core.$ZodType;
  readonly shape?: Readonly<Record<string, z.core.$ZodType>>;
}

const definition = (schema: z.core.$ZodType): Walked => schema._zod.def as unknown as Walked;

function metaOf(schema: z.core.$ZodType): Partial<About> {
  const meta =
    'meta' in schema && typeof schema.meta === 'function' ? (schema.meta() as Partial<About> | undefined) : {};
  if (meta?.meaning !== undefined) return meta;
  const inner = definition(schema).innerType ?? definition(schema).in;
  return inner === undefined ? {} : metaOf(inner);
}

function sectionOf(title: string, schema: z.core.$ZodType): Section | undefined {
  const shape = definition(schema).shape;
  if (shape === undefined) return undefined;
  const rows = Object.entries(shape).map(([key, field]) =>
    rowOf(title === 'The plan' ? '' : `${title} › `, key, field),
  );
  return { title, meaning: metaOf(schema).meaning ?? '', rows };
}

function rowOf(prefix: string, key: string, field: z.core.$ZodType): Row {
  const needed = definition(field).type !== 'optional';
  const inner = sectionsIn(`${prefix}${key}`, field);
  return { key, needed, about: metaOf(field), inner };
}

const keysOf = (section: Section): string => section.rows.map((row) => row.key).join();

/** The maps inside a field, through optional, list, map of names and union; each branch of a union has its own heading. */
function sectionsIn(title: string, schema: z.core.$ZodType): readonly Section[] {
  const { innerType, in: input, options, element, valueType } = definition(schema);
  const own = sectionOf(title, schema);
  if (own !== undefined) return [own];
  if (options !== undefined) {
    const branches = options.flatMap((option) => sectionsIn(title, option));
    const different = branches.filter(
      (branch, at) => branches.findIndex((other) => keysOf(other) === keysOf(branch)) === at,
    );
    return different.length < 2
      ? different
      : different.map((branch) => ({ ...branch, title: `${title} (${branch.rows[0]?.key ?? ''})` }));
  }
  const next = innerType ?? input ?? element ?? valueType;
  return next === undefined ? [] : sectionsIn(title, next);
}
