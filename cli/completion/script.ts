/**
 * The script that a shell reads to complete commands. Each asks `evensow complete -- WORDS`, in the way that cobra made common: a line for
 * each answer, with a tab before its explanation, and at the end a colon and a number that says what else holds (answers.ts).
 *
 * Those of zsh and fish are the package's. That of bash is ours: the package's runs what stands in the line that is being typed
 * (`eval`), needs another package in the shell, and never names a file.
 */

import { script } from '@bomb.sh/tab';
import type { Shell } from '../options/words.js';
import { heard } from './heard.js';

const BASH = `# bash completion for evensow
_evensow_complete() {
  local word line directive=0 count=0 glue= current=
  local -a words
  # What bash takes for several words, --by=bad_week, is one.
  for word in "\${COMP_WORDS[@]:1:COMP_CWORD}"; do
    if [[ $count -gt 0 && ( $word == = || -n $glue ) ]]; then words[count-1]+=$word
    else words[count]=$word; count=$((count + 1)); fi
    if [[ $word == = ]]; then glue=1; else glue=; fi
  done
  [[ \${COMP_WORDS[COMP_CWORD]} == = ]] || current=\${COMP_WORDS[COMP_CWORD]}
  COMPREPLY=()
  while IFS= read -r line; do
    if [[ $line == :* ]]; then directive=\${line#:}; continue; fi
    line=\${line%%$'\\t'*}
    [[ $line == "$current"* ]] && COMPREPLY+=("$line")
  done < <(evensow complete -- "\${words[@]}" 2>/dev/null)
  (( directive & 2 )) && compopt -o nospace 2>/dev/null
  (( directive & 4 )) && compopt +o default 2>/dev/null
  return 0
}
complete -o default -F _evensow_complete evensow`;

/** @returns the text, without a line break at its end */
export function completionScript(shell: Shell): string {
  return shell === 'bash' ? BASH : heard(() => script(shell, 'evensow', 'evensow')).join('\n');
}
