import type { Option, Verb } from './verb.ts';

type Verbs = Readonly<Record<string, Verb>>;

/** The verbs and options of the program as a script of each shell that completes them. */
export const completionScripts = { bash, zsh, fish } satisfies Record<string, (verbs: Verbs) => string>;

const HELP: Option = { type: 'boolean', short: 'h', about: 'this help' };

function optionsOf({ options }: Verb): [string, Option][] {
  return [...Object.entries(options), ['help', HELP]];
}

function namesOf([name, { short }]: [string, Option]): string[] {
  return short ? [`--${name}`, `-${short}`] : [`--${name}`];
}

/** The words a verb takes, where it takes one of a few. */
function wordsOf({ operands }: Verb): readonly string[] {
  return /^[a-z]+(\|[a-z]+)+$/.test(operands) ? operands.split('|') : [];
}

/** A text between single quotes, as all three shells take it. */
function quoted(text: string): string {
  return `'${text.replaceAll("'", "'\\''")}'`;
}

function bash(verbs: Verbs): string {
  const choices = Object.entries(verbs).flatMap(([verb, about]) =>
    optionsOf(about).flatMap(([name, option]) => {
      const pattern = namesOf([name, option]).map((one) => `${verb}:${one}`);
      if (option.choices) return [`    ${pattern.join('|')}) words=${quoted(option.choices.join(' '))} ;;`];
      return option.type === 'string' ? [`    ${pattern.join('|')}) words='' ; files=1 ;;`] : [];
    }),
  );
  const words = Object.entries(verbs).flatMap(([verb, about]) =>
    wordsOf(about).length > 0 ? [`    ${verb}:${verb}) words=${quoted(wordsOf(about).join(' '))} ;;`] : [],
  );
  const options = Object.entries(verbs).map(
    ([verb, about]) =>
      `      ${verb}) words=${quoted(
        optionsOf(about)
          .map(([name]) => `--${name}`)
          .join(' '),
      )} ;;`,
  );
  return `# build-sheet completion for bash: source <(build-sheet completion bash)
_build_sheet() {
  local current=\${COMP_WORDS[COMP_CWORD]} before=\${COMP_WORDS[COMP_CWORD-1]} verb=\${COMP_WORDS[1]} words='' files=''
  COMPREPLY=()
  if [ "$COMP_CWORD" -eq 1 ]; then
    COMPREPLY=($(compgen -W ${quoted([...Object.keys(verbs), '--help', '--version'].join(' '))} -- "$current"))
    return
  fi
  case "$verb:$before" in
${[...choices, ...words].join('\n')}
    *) files=1 ;;
  esac
  if [ -n "$words" ]; then
    COMPREPLY=($(compgen -W "$words" -- "$current"))
    return
  fi
  case "$current" in
    -*)
      case "$verb" in
${options.join('\n')}
      esac
      COMPREPLY=($(compgen -W "$words" -- "$current"))
      ;;
    *) [ -z "$files" ] || COMPREPLY=($(compgen -f -- "$current")) ;;
  esac
}
complete -o filenames -F _build_sheet build-sheet
`;
}

function zsh(verbs: Verbs): string {
  const described = Object.entries(verbs).map(([verb, { about }]) => `    ${quoted(`${verb}:${about}`)}`);
  const cases = Object.entries(verbs).map(([verb, about]) => {
    const specs = optionsOf(about).map(([name, option]) => zshOption(name, option));
    const words = wordsOf(about);
    const operand = words.length > 0 ? `'1:word:(${words.join(' ')})'` : "'*:file:_files'";
    return `    ${verb}) _arguments -s ${[...specs, operand].join(' ')} ;;`;
  });
  return `#compdef build-sheet
# build-sheet completion for zsh: source <(build-sheet completion zsh)
_build_sheet() {
  local -a verbs
  verbs=(
${described.join('\n')}
  )
  if (( CURRENT == 2 )); then
    _describe verb verbs
    return
  fi
  local verb=$words[2]
  shift words
  (( CURRENT-- ))
  case $verb in
${cases.join('\n')}
  esac
}
# Loaded from a folder of fpath this file is the completion itself; sourced it only defines it.
if [[ $funcstack[1] == _build-sheet ]]; then _build_sheet "$@"; else compdef _build_sheet build-sheet; fi
`;
}

function zshOption(name: string, { short, about, choices, type, value = 'VALUE' }: Option): string {
  const text = about.replaceAll(/[[\]]/g, ' ');
  const argument = type === 'boolean' ? '' : choices ? `:${value}:(${choices.join(' ')})` : `:${value}:_files`;
  const spec = quoted(`[${text}]${argument}`);
  return short ? `'(-${short} --${name})'{-${short},--${name}}${spec}` : `--${name}${spec}`;
}

function fish(verbs: Verbs): string {
  const lines = Object.entries(verbs).flatMap(([verb, about]) => [
    `complete -c build-sheet -n __fish_use_subcommand -f -a ${verb} -d ${fishQuoted(about.about)}`,
    ...wordsOf(about).map((word) => `complete -c build-sheet -n '__fish_seen_subcommand_from ${verb}' -f -a ${word}`),
    ...optionsOf(about).map(([name, { short, choices, type, about: does }]) =>
      [
        `complete -c build-sheet -n '__fish_seen_subcommand_from ${verb}' -l ${name}`,
        ...(short ? [`-s ${short}`] : []),
        ...(type === 'boolean' ? [] : choices ? [`-x -a '${choices.join(' ')}'`] : ['-r']),
        `-d ${fishQuoted(does)}`,
      ].join(' '),
    ),
  ]);
  return `# build-sheet completion for fish: build-sheet completion fish | source\n${lines.join('\n')}\n`;
}

function fishQuoted(text: string): string {
  return `'${text.replaceAll('\\', '\\\\').replaceAll("'", "\\'")}'`;
}
