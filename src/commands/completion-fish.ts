/** The script for fish: it asks the program, and knows no command itself. */

const SCRIPT = `# Completion of saggar for fish.
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

/** The script; `ask` is the command that answers a line's words. */
export function fishScript(ask: string): string {
  return SCRIPT.replace('ASK', () => ask);
}
