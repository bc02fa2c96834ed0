# Completion of boxaloud for fish: boxaloud completion fish | source
function __boxaloud
    set -l said (commandline -opc)
    set -l program $said[1]
    set -e said[1]
    set -l begun (commandline -ct)
    set -l found ($program completion fish -- $said "$begun" 2>/dev/null)
    if test (count $found) -gt 0
        printf '%s\n' $found
    else
        __fish_complete_path "$begun"
    end
end
complete -c boxaloud -f -a '(__boxaloud)'
