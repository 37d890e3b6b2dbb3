/** Completions for zsh. */
import { type Argument, type OfferedFlag, offered, offeredTopics } from './offered.ts';

/** The function; name the file `_millside` and put it in a folder of `fpath`. */
export function zshCompletions(): string {
  return `#compdef millside
_millside() {
  local -a subcommands
  subcommands=(
${offered.map((one) => `    ${quote(`${one.name}:${one.summary}`)}`).join('\n')}
  )
  if (( CURRENT == 2 )); then
    _describe -t subcommands subcommand subcommands
    _files -g '*.(yaml|yml)'
    return
  fi
  local subcommand=$words[2]
  shift words
  (( CURRENT-- ))
  case $subcommand in
${offered.map((one) => `    ${one.name}) ${one.name === 'reckon' ? reckon() : argumentsOf(one.flags, one.argument)} ;;`).join('\n')}
  esac
}
_millside "$@"
`;
}

function argumentsOf(flags: readonly OfferedFlag[], argument: Argument): string {
  return ['_arguments', ...flags.map(flagOf), ...argumentWords(argument)].join(' ');
}

function flagOf({ flag, takesValue, meaning }: OfferedFlag): string {
  const about = meaning.replace(/[[\]:\\]/g, (sign) => `\\${sign}`);
  return quote(`--${flag}${takesValue ? '=' : ''}[${about}]${takesValue ? ':value:_files' : ''}`);
}

function argumentWords(argument: Argument): readonly string[] {
  switch (argument.kind) {
    case 'plan':
      return [quote('*:plan:_files -g "*.(yaml|yml)"')];
    case 'file':
      return [quote('*:file:_files')];
    case 'batch':
      return [quote('*:batch:($(millside batches 2>/dev/null | grep -oE "^[a-z0-9]+  "))')];
    case 'words':
      return [quote(`1:word:(${argument.words.join(' ')})`)];
    case 'none':
      return [];
    default:
      return argument satisfies never;
  }
}

function reckon(): string {
  const names = offeredTopics.map((topic) => topic.name).join(' ');
  const rows = offeredTopics.map(
    (topic) =>
      `        ${topic.name}) _arguments '*:word:(${topic.flags.map(({ flag }) => `--${flag}`).join(' ')})' ;;`,
  );
  return `if (( CURRENT == 2 )); then
        _values topic ${names}
        return
      fi
      case $words[2] in
${rows.join('\n')}
      esac`;
}

const quote = (text: string): string => `'${text.replaceAll("'", `'\\''`)}'`;
