# SPDX-License-Identifier: MIT
#
# Completion for bash: source completions/dripstone.bash, or put it into the folder of bash completions.
# Packs, rules and words come from the program itself.

_dripstone_words() { mapfile -t COMPREPLY < <(compgen -W "$1" -- "$2"); }

_dripstone() {
    local word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD - 1]} command=${COMP_WORDS[1]:-}
    local program=${COMP_WORDS[0]} common='--ascii --colour --help'
    COMPREPLY=()
    if ((COMP_CWORD == 1)); then
        _dripstone_words 'check read compare new rules seen help --help --version' "$word"
        return
    fi
    case "$before" in
        --colour) _dripstone_words 'auto always never' "$word" && return ;;
        --pack | --rules)
            if [ "$command" != check ]; then
                _dripstone_words 'iec gb-2022 gb-2018' "$word"
                return
            fi
            ;;
    esac
    if [[ $word == -* ]]; then
        case "$command" in
            check) _dripstone_words "--json --csv --explain --pack --words $common" "$word" ;;
            read | compare) _dripstone_words "--json $common" "$word" ;;
            new) _dripstone_words "-o --output --force --rules --date $common" "$word" ;;
            rules) _dripstone_words "--pack --file --words --ids --json $common" "$word" ;;
            seen)
                _dripstone_words "--kinds --places --settings --measures --conditions --found --evidence --qualities \
                    --materials --words --ids --json $common" "$word"
                ;;
            *) _dripstone_words "$common" "$word" ;;
        esac
        return
    fi
    case "$command" in
        rules) _dripstone_words "$("$program" rules --ids 2> /dev/null)" "$word" ;;
        seen) _dripstone_words "water dust blows people rest $("$program" seen --ids 2> /dev/null)" "$word" ;;
        help) _dripstone_words 'check read compare new rules seen' "$word" ;;
        *) mapfile -t COMPREPLY < <(compgen -f -- "$word") ;;
    esac
}

complete -o filenames -F _dripstone dripstone
