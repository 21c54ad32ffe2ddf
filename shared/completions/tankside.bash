# bash completion for tankside. What could come next is asked of the program itself, so that
# it is always what the program takes.
_tankside() {
  local word what given=() i files
  COMPREPLY=()
  # "--paper=a4" arrives as three words.
  for ((i = 1; i <= COMP_CWORD; i++)); do
    [[ ${COMP_WORDS[i]} == "=" ]] || given+=("${COMP_WORDS[i]}")
  done
  [[ ${COMP_WORDS[COMP_CWORD]} == "=" ]] && given+=("")
  local current=${given[${#given[@]} - 1]}
  while IFS=$'\t' read -r word what; do
    case $word in
      @files) mapfile -t files < <(compgen -f -X "!*$what" -- "$current"; compgen -d -- "$current") ;;
      @folders) mapfile -t files < <(compgen -d -- "$current") ;;
      *) COMPREPLY+=("$word"); continue ;;
    esac
    compopt -o filenames 2>/dev/null
    COMPREPLY+=("${files[@]}")
  done < <("${COMP_WORDS[0]}" completions words -- "${given[@]}" 2>/dev/null)
  # A path that goes on: no blank after it.
  [[ ${#COMPREPLY[@]} -eq 1 && ${COMPREPLY[0]} == *[/=] ]] && compopt -o nospace 2>/dev/null
  return 0
}
complete -F _tankside tankside
