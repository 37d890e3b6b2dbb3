/** What can be completed, for every shell alike: subcommands with their flags and with what their argument may be. */
import { topics } from '../reckon/topics.ts';
import { settingKeys } from '../setting-keys.ts';
import { subcommands } from '../subcommands.ts';

/** What stands for an argument: a plan file, a batch by its id, one of a few words, or a file of any kind. */
export type Argument =
  | { readonly kind: 'plan' }
  | { readonly kind: 'batch' }
  | { readonly kind: 'words'; readonly words: readonly string[] }
  | { readonly kind: 'file' }
  | { readonly kind: 'none' };

export type OfferedFlag = { readonly flag: string; readonly takesValue: boolean; readonly meaning: string };

export type Offered = {
  readonly name: string;
  readonly summary: string;
  readonly flags: readonly OfferedFlag[];
  readonly argument: Argument;
};

const help: OfferedFlag = { flag: 'help', takesValue: false, meaning: 'show help' };

/** Every subcommand as completions see it. */
export const offered: readonly Offered[] = subcommands.map((one) => ({
  name: one.name,
  summary: one.summary,
  flags: [...one.options.map(({ flag, value, meaning }) => ({ flag, takesValue: value !== null, meaning })), help],
  argument: argumentOf(one.usage),
}));

/** Flags of each topic of `reckon`. */
export const offeredTopics: readonly { readonly name: string; readonly flags: readonly OfferedFlag[] }[] = topics.map(
  (topic) => ({
    name: topic.name,
    flags: topic.flags.map(({ name, meaning }) => ({ flag: name, takesValue: true, meaning })),
  }),
);

/** What the word in capitals of a usage line stands for. */
function argumentOf(usage: string): Argument {
  const word = /\b[A-Z]{3,}\b/.exec(usage)?.[0];
  switch (word) {
    case 'PLAN':
      return { kind: 'plan' };
    case 'BATCH':
      return { kind: 'batch' };
    case 'FILE':
      return { kind: 'file' };
    case 'TOPIC':
      return { kind: 'words', words: topics.map((topic) => topic.name) };
    case 'KEY':
      return { kind: 'words', words: settingKeys().map((one) => one.key) };
    case 'SHELL':
      return { kind: 'words', words: ['bash', 'zsh', 'fish'] };
    default:
      return { kind: 'none' };
  }
}
