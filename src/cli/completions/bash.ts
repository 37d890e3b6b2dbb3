/** Completions for bash 4 and later. */
import { type Argument, type OfferedFlag, offered, offeredTopics } from './offered.ts';

/** The script; source it, or put it where bash-completion looks. */
export function bashCompletions(): string {
  const names = offered.map((one) => one.name).join(' ');
  const withValue = offered.flatMap((one) => one.flags.filter((flag) => flag.takesValue));
  const valued = [...new Set(withValue.map(({ flag }) => `--${flag}`))].join('|');
  return `# millside completions for bash
_millside_offer() { mapfile -t COMPREPLY < <(compgen -W "$1" -- "$2"); }
_millside_files() {
  compopt -o filenames 2>/dev/null
  mapfile -t -O "\${#COMPREPLY[@]}" COMPREPLY < <(compgen -d -- "$2"; compgen -f -- "$2" | grep -E "$1")
}
_millside() {
  local word=\${COMP_WORDS[COMP_CWORD]} before=\${COMP_WORDS[COMP_CWORD-1]}
  COMPREPLY=()
  if [ "$COMP_CWORD" -eq 1 ]; then
    _millside_offer '${names} --version --help' "$word"
    if [ "\${#COMPREPLY[@]}" -eq 0 ]; then _millside_files '\\.ya?ml$' "$word"; fi
    return
  fi
  case $before in ${valued}) _millside_files . "$word"; return ;; esac
  case \${COMP_WORDS[1]} in
${offered.map((one) => `    ${one.name}) ${one.name === 'reckon' ? reckon() : branch(one.flags, one.argument)} ;;`).join('\n')}
  esac
}
complete -F _millside millside
`;
}

const flagWords = (flags: readonly OfferedFlag[]): string => flags.map(({ flag }) => `--${flag}`).join(' ');

function branch(flags: readonly OfferedFlag[], argument: Argument): string {
  const other = argumentLine(argument);
  return `case $word in -*) _millside_offer '${flagWords(flags)}' "$word" ;; *) ${other} ;; esac`;
}

function argumentLine(argument: Argument): string {
  switch (argument.kind) {
    case 'plan':
      return `_millside_files '\\.ya?ml$' "$word"`;
    case 'file':
      return '_millside_files . "$word"';
    case 'batch':
      return `_millside_offer "$(millside batches 2>/dev/null | grep -oE '^[a-z0-9]+  ')" "$word"`;
    case 'words':
      return `_millside_offer '${argument.words.join(' ')}' "$word"`;
    case 'none':
      return ':';
    default:
      return argument satisfies never;
  }
}

/** The flags of `reckon` depend on its topic. */
function reckon(): string {
  const rows = offeredTopics.map(
    (topic) => `      ${topic.name}) _millside_offer '${flagWords(topic.flags)} --units --json --help' "$word" ;;`,
  );
  const names = offeredTopics.map((topic) => topic.name).join(' ');
  return `if [ "$COMP_CWORD" -eq 2 ]; then _millside_offer '${names} --help' "$word"; return; fi
      case \${COMP_WORDS[2]} in
${rows.map((row) => `  ${row}`).join('\n')}
      esac`;
}
