# Completes chalklight's commands and options in bash. Both come from what the program's own --help says, so that they are
# always those of the program that is there; files are left to the shell.
_chalklight()
{
    local word=${COMP_WORDS[COMP_CWORD]} program=${COMP_WORDS[0]} command=${COMP_WORDS[1]}
    COMPREPLY=()
    if [ "$COMP_CWORD" -eq 1 ]; then
        COMPREPLY=($(compgen -W "$("$program" --help 2>/dev/null | sed -n 's/^  \([a-z]*\) .*/\1/p') --help --version" -- "$word"))
    elif [ "${word#-}" != "$word" ]; then
        COMPREPLY=($(compgen -W "$("$program" "$command" --help 2>/dev/null | sed -n 's/^  \(--[a-z-]*\).*/\1/p')" -- "$word"))
    fi
}
complete -o bashdefault -o default -F _chalklight chalklight
