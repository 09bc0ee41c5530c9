/** The script for zsh: it asks the program, and knows no command itself. */

const SCRIPT = `#compdef saggar
# Completion of saggar for zsh.
# For this shell:  source <(saggar completion zsh)     (after compinit)
# For every one:   saggar completion zsh > FOLDER/_saggar
#                  with a FOLDER of $fpath; then start a new shell

_saggar() {
    local -a answers replies shown suffix
    local answer
    integer longest=0
    answers=("\${(@f)$(command ASK "\${(@Q)words[2,CURRENT-1]}" "\${(Q)PREFIX}" 2>/dev/null)}")
    case $answers[1] in
        folders)
            [[ $PREFIX == --*=* ]] && compset -P '*='
            _files -/
            return
            ;;
        beginnings) suffix=(-S '') ;;
        words) ;;
        *) return 1 ;;
    esac
    shift answers
    (($#answers)) || return 1
    replies=("\${(@)answers%%$'\\t'*}")
    for answer in $replies; do (($#answer > longest)) && longest=$#answer; done
    for answer in $answers; do shown+=("\${(r:longest:)answer%%$'\\t'*}  \${answer#*$'\\t'}"); done
    compadd -l -V saggar "\${suffix[@]}" -d shown -a replies
}

if [[ $zsh_eval_context[-1] == loadautofunc ]]; then
    _saggar "$@"
else
    compdef _saggar saggar
fi
`;

/** The script; `ask` is the command that answers a line's words. */
export function zshScript(ask: string): string {
  return SCRIPT.replace('ASK', () => ask);
}
