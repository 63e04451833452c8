# Prints what zsh offers for command lines that are begun, one a line, each line of offers ended by END:
#   zsh -f zsh-offers.zsh COMPLETION LINE...
# It types each line and Tab into a zsh in a terminal of its own, in which every match that is added is also written down.
zmodload zsh/zpty zsh/datetime
export OFFERED=$(mktemp) COMPLETION=$1 TERM=vt100
setup=$(mktemp)
cat > $setup <<'SETUP'
# What other programs bring along is not looked through.
fpath=(${fpath:#*/(Command|Linux|Debian|X|AIX|BSD|Cygwin|Darwin|Mandriva|openSUSE|Redhat|Solaris)(|/*)})
autoload -Uz compinit && compinit -D -u
source $COMPLETION
compadd() {
  if [[ ${@[1,(i)(-|--)]} != *-(O|A|D)\ * ]]; then
    local -a matching
    builtin compadd -A matching "$@"
    print -rl -- $matching >> $OFFERED
  fi
  builtin compadd "$@"
}
offer() { zle complete-word; print -r -- END >> $OFFERED; zle kill-buffer }
zle -N offer
bindkey '^I' offer
SETUP
zpty shell zsh -f -i
zpty -w shell "source $setup"
until=$((EPOCHSECONDS + 90))
shift
for line; do
  (( ends++ ))
  zpty -w -n shell "$line"$'\t'
  while (($(grep -cx END $OFFERED) < ends && EPOCHSECONDS < until)); do
    while zpty -r -t shell shown; do :; done
    sleep 0.05
  done
done
zpty -d shell
cat $OFFERED
rm -f $OFFERED $setup
