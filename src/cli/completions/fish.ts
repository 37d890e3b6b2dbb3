/** Completions for fish. */
import { type Argument, type Offered, offered, offeredTopics } from './offered.ts';

/** The script; put it into `~/.config/fish/completions/millside.fish`. */
export function fishCompletions(): string {
  return `${[
    '# millside completions for fish',
    'complete -c millside -n __fish_use_subcommand -l version -d "the version"',
    ...offered.flatMap(linesOf),
    ...offeredTopics.flatMap((topic) =>
      topic.flags.map(
        ({ flag, meaning }) =>
          `complete -c millside -n '__fish_seen_subcommand_from reckon; and __fish_seen_subcommand_from ${topic.name}' -x -l ${flag} -d ${quote(meaning)}`,
      ),
    ),
    '',
  ].join('\n')}`;
}

function linesOf(one: Offered): readonly string[] {
  const when = `-n '__fish_seen_subcommand_from ${one.name}'`;
  return [
    `complete -c millside -n __fish_use_subcommand -a ${one.name} -d ${quote(one.summary)}`,
    ...one.flags.map(
      ({ flag, takesValue, meaning }) =>
        `complete -c millside ${when} ${takesValue ? '-r ' : ''}-l ${flag} -d ${quote(meaning)}`,
    ),
    ...argumentLines(one.argument).map((words) => `complete -c millside ${when} ${words}`),
  ];
}

function argumentLines(argument: Argument): readonly string[] {
  switch (argument.kind) {
    case 'plan':
      return ["-k -a '(__fish_complete_suffix .yaml)'"];
    case 'file':
      return ['-F'];
    case 'batch':
      return [`-f -a '(millside batches 2>/dev/null | string match -r "^[a-z0-9]+(?=  )")'`];
    case 'words':
      return [`-f -a ${quote(argument.words.join(' '))}`];
    case 'none':
      return ['-f'];
    default:
      return argument satisfies never;
  }
}

const quote = (text: string): string => `'${text.replaceAll('\\', '\\\\').replaceAll("'", "\\'")}'`;
