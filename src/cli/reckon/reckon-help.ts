/** Help of `reckon`, made from the table of topics. */
import { hanging } from '../hanging.ts';
import type { Topic } from './topic.ts';

/** The topics on one page of at most 80 columns. */
export function helpOfTopics(topics: readonly Topic[]): string {
  const width = Math.max(...topics.map((topic) => topic.name.length)) + 2;
  return [
    'Usage: millside reckon TOPIC [flags]',
    '',
    'One piece of shop arithmetic: an answer with its working.',
    '',
    ...topics.flatMap((topic) => hanging(`  ${topic.name.padEnd(width)}`, topic.summary)),
    '',
    '  --json         every number, its unit in the name of the field ("format": 1)',
    '  --json-shape   tell what --json answers, as a JSON Schema, and end',
    '  --units UNIT   mm or inch: unit of bare lengths and of the answer',
    '  --help         this page; after a topic, its flags and an example',
    '',
    'Lengths: 6 mm, 1/4 in, 1-3/16 in, .750 in, no. 7, letter F. A number alone is in',
    'mm, or in inches where another value or the thread is. A cutting speed needs its',
    'unit. Speeds and feeds are starting values: the maker of the tool and the',
    "machine's manual come first.",
    '',
  ].join('\n');
}

/** One topic: what it takes and an example. */
export function helpOfTopic(topic: Topic): string {
  const flags = topic.flags.map((flag) => ({ left: `  --${flag.name} ${flag.value}`, meaning: flag.meaning }));
  const width = Math.min(32, Math.max(...flags.map(({ left }) => left.length)) + 2);
  const needs = topic.needs.map((one) => one.map((flag) => `--${flag}`).join(' or '));
  return [
    `Usage: millside reckon ${topic.name} [flags]`,
    '',
    ...hanging('', `${topic.summary.charAt(0).toUpperCase()}${topic.summary.slice(1)}.`),
    '',
    ...flags.flatMap(({ left, meaning }) =>
      left.length < width ? hanging(left.padEnd(width), meaning) : [left, ...hanging(' '.repeat(width), meaning)],
    ),
    ...hanging('  --json'.padEnd(width), 'every number with its unit in the name of the field'),
    ...hanging('  --units UNIT'.padEnd(width), 'mm or inch for bare lengths and the answer'),
    '',
    ...hanging('Needs: ', needs.join(', ')),
    '',
    `Example: millside reckon ${topic.example}`,
    '',
  ].join('\n');
}
