/** `saggar completion SHELL`: the script that lets a shell complete what is typed. */
import { printedLayout } from '../../render/printable.ts';
import { COMPLETE_WORDS, type CommandOf } from '../catalogue.ts';
import { EXIT } from '../world.ts';

/**
 * For bash, from 3.2 on. It parts words at `=` and `:`, so they are put together again as they stand in
 * the line, and answers lose what bash has parted off. Nothing of the line or of an answer is ever run.
 */
const BASH = `# Completion of saggar for bash.
# For this shell:  source <(saggar completion bash)
# For every one:   saggar completion bash > ~/.local/share/bash-completion/completions/saggar
#                  (or, without the package bash-completion, put the first line into ~/.bashrc)

_saggar() {
    local rest=\${COMP_LINE:0:COMP_POINT} words=() before piece='' parted i
    for ((i = 0; i <= COMP_CWORD; i++)); do
        before=$rest
        rest=\${rest#"\${rest%%[![:blank:]]*}"}
        piece=\${COMP_WORDS[i]}
        ((i == COMP_CWORD)) && piece=$rest
        if ((i > 0)) && [[ $rest == "$before" ]]; then
            words[\${#words[@]} - 1]+=$piece
        else
            words+=("$piece")
        fi
        rest=\${rest#"$piece"}
    done
    [[ $piece == [=:] ]] && piece=''
    for i in "\${!words[@]}"; do
        words[i]=\${words[i]//[\\"\\'\\\\]/}
        [[ \${words[i]} == '~/'* ]] && words[i]=$HOME\${words[i]:1}
    done
    parted=\${words[\${#words[@]} - 1]}
    parted=\${parted%"\${piece//[\\"\\'\\\\]/}"}
    [[ $parted == *[=:] ]] || parted=''

    local answers=() replies=()
    IFS=$'\\n' read -r -d '' -a answers < <(command ASK "\${words[@]:1}" 2>/dev/null)
    COMPREPLY=()
    case \${answers[0]-} in
        folders)
            compopt -o filenames 2>/dev/null
            while IFS= read -r i; do COMPREPLY+=("$i"); done < <(compgen -d -- "\${piece//[\\"\\'\\\\]/}")
            return
            ;;
        beginnings) compopt -o nospace 2>/dev/null ;;
        words) ;;
        *) return ;;
    esac
    answers=("\${answers[@]:1}")
    replies=("\${answers[@]%%$'\\t'*}")
    # Within quotes a space stays as it is, and bash closes them after the only answer.
    [[ $piece == [\\"\\']* ]] || replies=("\${replies[@]// /\\\\ }")
    # Only a list that is shown and not typed in can carry descriptions.
    if ((\${#answers[@]} > 1)) && [[ \${COMP_TYPE-} == 63 || \${COMP_TYPE-} == 33 || \${COMP_TYPE-} == 64 ]]; then
        local longest=0
        for i in "\${replies[@]}"; do ((\${#i} > longest)) && longest=\${#i}; done
        for i in "\${!answers[@]}"; do
            [[ \${answers[i]} == *$'\\t'?* ]] || continue
            printf -v "replies[$i]" '%-*s  %s' "$longest" "\${replies[i]}" "\${answers[i]#*$'\\t'}"
        done
    fi
    COMPREPLY=("\${replies[@]#"$parted"}")
}

complete -o nosort -F _saggar saggar 2>/dev/null || complete -F _saggar saggar
`;

const ZSH = `#compdef saggar
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

const FISH = `# Completion of saggar for fish.
# For this shell:  saggar completion fish | source
# For every one:   saggar completion fish > ~/.config/fish/completions/saggar.fish

function __saggar_words
    set -l typed (commandline -opc)
    set -e typed[1]
    set -l word (string trim --left --chars '"\\'' -- (commandline -ct) | string replace --all '\\\\ ' ' ')
    set -l answers (command ASK $typed "$word" 2>/dev/null)
    switch "$answers[1]"
        case folders
            set -l option (string match -r -- '^--[^=]*=' $word)
            for folder in (__fish_complete_directories (string replace -r -- '^--[^=]*=' '' $word) '')
                echo "$option$folder"
            end
        case words beginnings
            set -e answers[1]
            printf '%s\\n' $answers
    end
end

complete -c saggar -f -k -a '(__saggar_words)'
`;

/** Each asks the program how a line can go on, by the command that is put in place of ASK. */
const SCRIPTS: Readonly<Record<string, string>> = { bash: BASH, zsh: ZSH, fish: FISH };

/** Prints the script of a shell; the command line has seen to it that there is one. */
export const completion: CommandOf<'completion'> = ({ argument = '' }, world) => {
  const script = SCRIPTS[argument] ?? '';
  world.write(printedLayout(script.replace('ASK', () => `saggar ${COMPLETE_WORDS.name} --`)));
  return Promise.resolve(EXIT.fine);
};
