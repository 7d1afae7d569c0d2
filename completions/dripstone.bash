# SPDX-License-Identifier: MIT
#
# Completion for bash: source completions/dripstone.bash, or put it into the folder of bash completions.
# Packs, rules, words and points come from the program itself.

_dripstone_words() { mapfile -t COMPREPLY < <(compgen -W "$1" -- "$2"); }

_dripstone_files() { mapfile -t COMPREPLY < <(compgen -f -- "$1"); }

# Ids of the points of the first job file among the words.
_dripstone_points() {
    local each
    for each in "${COMP_WORDS[@]:2}"; do
        if [ -f "$each" ]; then
            "$1" check "$each" --csv 2> /dev/null | tail -n +2 | cut -d , -f 1 | tr -d '"'
            return
        fi
    done
}

# Ids of the places of the first job file among the words.
_dripstone_places() {
    local each
    for each in "${COMP_WORDS[@]:2}"; do
        if [ -f "$each" ]; then
            "$1" check "$each" --csv 2> /dev/null | tail -n +2 | cut -d , -f 4 | tr -d '"' | sort -u
            return
        fi
    done
}

_dripstone_options() {
    case "$1" in
        check) echo '--json --csv --explain --pack --words' ;;
        draw) echo '--place -o --output --force --pack --words' ;;
        paper) echo '--for --size -o --output --force --pack --words' ;;
        labels) echo '--grid --label --corner --gap --skip --size -o --output --force --pack --words' ;;
        box) echo '--point --weather --json --svg -o --output --force --pack --words' ;;
        zones) echo '--place --at --json --pack --words' ;;
        read | compare) echo '--json' ;;
        new) echo '-o --output --force --rules --date' ;;
        sheet) echo '--for -o --output --force --pack --words' ;;
        import) echo '--map --save-map --show-map --add-places -o --output --force --json' ;;
        merge) echo '-o --output --force --json' ;;
        differ) echo '--before --after --json --output --size --force --pack --words' ;;
        serve) echo '-p --port --data --open --listen --password-file --tls-cert --tls-key --name --pack --words' ;;
        rules) echo '--pack --file --words --packs --ids --json' ;;
        seen)
            echo '--kinds --places --settings --measures --conditions --found --evidence --qualities --materials' \
                '--words --ids --json'
            ;;
    esac
    echo '--ascii --colour --help'
}

_dripstone() {
    local word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD - 1]} command=${COMP_WORDS[1]:-}
    local program=${COMP_WORDS[0]} commands='check zones draw box paper labels sheet read compare new import merge differ rules seen serve help'
    COMPREPLY=()
    if ((COMP_CWORD == 1)); then
        _dripstone_words "$commands --help --version" "$word"
        return
    fi
    case "$command $before" in
        *' --for') _dripstone_words 'all client fitter buyer inspector' "$word" ;;
        *' --size') _dripstone_words 'a4 letter' "$word" ;;
        *' --colour') _dripstone_words 'auto always never' "$word" ;;
        'rules --pack' | 'differ --before' | 'differ --after' | 'new --rules') _dripstone_words "$("$program" rules --packs 2> /dev/null)" "$word" ;;
        'check --explain' | 'box --point') _dripstone_words "$(_dripstone_points "$program")" "$word" ;;
        *' --place') _dripstone_words "$(_dripstone_places "$program")" "$word" ;;
        *' --data') mapfile -t COMPREPLY < <(compgen -d -- "$word") ;;
        *' --password-file' | *' --tls-cert' | *' --tls-key') _dripstone_files "$word" ;;
        *' --map' | *' --save-map' | *' --weather' | *' --pack' | *' --words' | *' --file' | *' -o' | *' --output') _dripstone_files "$word" ;;
        *' --date' | *' --at' | *' --grid' | *' --label' | *' --corner' | *' --gap' | *' --skip' | *' --port' | *' -p' | *' --listen' | *' --name') ;;
        *)
            case "$command $word" in
                *' -'*) _dripstone_words "$(_dripstone_options "$command")" "$word" ;;
                rules*) _dripstone_words "$("$program" rules --ids 2> /dev/null)" "$word" ;;
                seen*) _dripstone_words "water dust blows people rest $("$program" seen --ids 2> /dev/null)" "$word" ;;
                help*) _dripstone_words "$commands" "$word" ;;
                check* | sheet* | import* | merge* | differ* | zones* | draw* | box* | paper* | labels* | serve*) _dripstone_files "$word" ;;
            esac
            ;;
    esac
}

complete -o filenames -F _dripstone dripstone
