# fish completion for tankside. What could come next is asked of the program itself, so that it
# is always what the program takes.
function __tankside_words
    set -l given (commandline -opc)
    set -l current (commandline -ct)
    for line in ($given[1] completions words -- $given[2..-1] "$current" 2>/dev/null)
        set -l parts (string split -m 1 \t -- $line)
        switch $parts[1]
            case @files
                __fish_complete_suffix "$current" "$parts[2]"
            case @folders
                __fish_complete_directories "$current"
            case '*'
                echo $line
        end
    end
end
complete -c tankside -f -a '(__tankside_words)'
