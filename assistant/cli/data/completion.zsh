#compdef boxaloud
# Completion of boxaloud for zsh: eval "$(boxaloud completion zsh)", after compinit
_boxaloud() {
  local -a found
  found=("${(@f)$("${words[1]}" completion zsh -- "${(@Q)words[2,CURRENT]}" 2>/dev/null)}")
  if [[ -n "${found[1]}" ]]; then
    _describe boxaloud found
  else
    _files
  fi
}
if [[ "${funcstack[1]}" == _boxaloud ]]; then
  _boxaloud "$@"
else
  compdef _boxaloud boxaloud
fi
