/** The script for bash, from 3.2 on: it asks the program, and knows no command itself. */

const SCRIPT = `# Completion of saggar for bash.
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
    # Within quotes a blank stands as it is, and bash closes them behind the only answer.
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

/**
 * The script; `ask` is the command that answers a line's words. Bash parts words at `=` and `:`,
 * so they are put together again as they stand in the line, and answers lose what bash has parted
 * off. Nothing of the line or of an answer is ever run.
 */
export function bashScript(ask: string): string {
  return SCRIPT.replace('ASK', () => ask);
}
