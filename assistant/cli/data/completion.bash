# Completion of boxaloud for bash: eval "$(boxaloud completion bash)"
_boxaloud() {
  local line
  COMPREPLY=()
  while IFS= read -r line; do
    COMPREPLY+=("$line")
  done < <("$1" completion bash -- "${COMP_WORDS[@]:1:COMP_CWORD}" 2>/dev/null)
}
complete -o default -F _boxaloud boxaloud
