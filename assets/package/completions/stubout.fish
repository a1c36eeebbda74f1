# Print an optspec for argparse to handle cmd's options that are independent of any subcommand.
function __fish_stubout_global_optspecs
    string join \n h/help V/version
end

function __fish_stubout_needs_command
    # Figure out if the current invocation already has a command.
    set -l cmd (commandline -opc)
    set -e cmd[1]
    argparse -s (__fish_stubout_global_optspecs) -- $cmd 2>/dev/null
    or return
    if set -q argv[1]
        # Also print the command, so this can be used to figure out what it is.
        echo $argv[1]
        return 1
    end
    return 0
end

function __fish_stubout_using_subcommand
    set -l cmd (__fish_stubout_needs_command)
    test -z "$cmd"
    and return 1
    contains -- $cmd[1] $argv
end

complete -c stubout -n "__fish_stubout_needs_command" -s h -l help -d 'Print help (see more with \'--help\')'
complete -c stubout -n "__fish_stubout_needs_command" -s V -l version -d 'Print version'
complete -c stubout -n "__fish_stubout_needs_command" -a "draw" -d 'Draw the permit sheet of each job'
complete -c stubout -n "__fish_stubout_needs_command" -a "size" -d 'Print the size of every section with the reason for it, and the pressure at every outlet'
complete -c stubout -n "__fish_stubout_needs_command" -a "check" -d 'Print the findings; exit code 1 when something must be fixed'
complete -c stubout -n "__fish_stubout_needs_command" -a "carry" -d 'Print whether existing pipe is large enough: parts before and after the work, spare capacity, and fixes'
complete -c stubout -n "__fish_stubout_needs_command" -a "tie-in" -d 'Try a tie-in of a new branch all along the existing piping, and print the best places'
complete -c stubout -n "__fish_stubout_needs_command" -a "variants" -d 'Print the variants of each job side by side: pipe, fittings, penetrations, margins, take-off, prices and hours of your own'
complete -c stubout -n "__fish_stubout_needs_command" -a "changes" -d 'Print what is different in each job from the job as it was issued'
complete -c stubout -n "__fish_stubout_needs_command" -a "steps" -d 'Print the work steps: what is shut off, which appliances lose gas, and the steps in order'
complete -c stubout -n "__fish_stubout_needs_command" -a "permit-checklist" -d 'Print what permit offices ask for, checked against the job, and the field or place of what is missing'
complete -c stubout -n "__fish_stubout_needs_command" -a "start-up" -d 'Print the start-up record: pressures and inputs measured at each appliance beside the drawing and the rating plate'
complete -c stubout -n "__fish_stubout_needs_command" -a "test" -d 'Print the pressure test of the new pipe: volume, pressure, time, readings by temperature, closures, purging'
complete -c stubout -n "__fish_stubout_needs_command" -a "count" -d 'Count the fittings on the drawing'
complete -c stubout -n "__fish_stubout_needs_command" -a "take-off" -d 'Print everything to buy, salvage and remove, with prices of your own'
complete -c stubout -n "__fish_stubout_needs_command" -a "quote" -d 'Print a quote for the customer: what is bought, and hours, by lists of your own'
complete -c stubout -n "__fish_stubout_needs_command" -a "cut" -d 'Print every piece of new pipe with its cut length, and the length or coil that it is cut from'
complete -c stubout -n "__fish_stubout_needs_command" -a "worksheet" -d 'Draw a worksheet of each job, in which figures are blank, and its key with the working'
complete -c stubout -n "__fish_stubout_needs_command" -a "exercise" -d 'Make an exercise: a job file with piping for a class to size, with tricky spots'
complete -c stubout -n "__fish_stubout_needs_command" -a "mark" -d 'Score students\' answers against a job\'s key, naming the likely mistake behind each wrong size'
complete -c stubout -n "__fish_stubout_needs_command" -a "rules" -d 'List every rule by which jobs are checked, its severity, and its code section or practice'
complete -c stubout -n "__fish_stubout_needs_command" -a "schema" -d 'Print what the JSON of each command holds'
complete -c stubout -n "__fish_stubout_needs_command" -a "licenses" -d 'Print the licenses of this program and of the libraries and fonts in it'
complete -c stubout -n "__fish_stubout_using_subcommand draw" -l profile -d 'Your own local code settings: a profile file (copy one from assets/profiles and change it)' -r -F
complete -c stubout -n "__fish_stubout_using_subcommand draw" -l lengths -d 'Lengths of your own valves, regulators and fittings for the cut list: lines of `what; size; length`' -r -F
complete -c stubout -n "__fish_stubout_using_subcommand draw" -l table -d 'A capacity table of your own, which comes before the published ones; may be given again (README.md says how to write one)' -r -F
complete -c stubout -n "__fish_stubout_using_subcommand draw" -l variant -d 'Show the variant of this name, and work with that' -r
complete -c stubout -n "__fish_stubout_using_subcommand draw" -l into -d 'Folder for the sheets; beside each job when not given' -r -F
complete -c stubout -n "__fish_stubout_using_subcommand draw" -l as -d 'What to write; may be given several times' -r -f -a "svg\t''
pdf\t''
png\t''
dxf\t''"
complete -c stubout -n "__fish_stubout_using_subcommand draw" -l paper -d 'Paper of the sheet' -r -f -a "ansi-a\t''
ansi-b\t''
a4\t''
a3\t''"
complete -c stubout -n "__fish_stubout_using_subcommand draw" -l since -d 'Cloud and list what changed since this job was issued: its file, or the SVG of its first sheet' -r -F
complete -c stubout -n "__fish_stubout_using_subcommand draw" -l arrange -d 'Arrange drawn lengths for legibility: always, never, or only where lines cross or labels do not fit' -r -f -a "always\t''
never\t''
when-needed\t''"
complete -c stubout -n "__fish_stubout_using_subcommand draw" -l text -d 'Text in the SVG: as outlines, the same everywhere, or live, to be edited' -r -f -a "outlines\t''
live\t''"
complete -c stubout -n "__fish_stubout_using_subcommand draw" -l dpi -d 'Dots per inch of the PNG' -r
complete -c stubout -n "__fish_stubout_using_subcommand draw" -l json -d 'Print for machines: one JSON value, described by `stubout schema`'
complete -c stubout -n "__fish_stubout_using_subcommand draw" -l work -d 'Add the work sheets: work steps, pressure test, take-off, cut list, cutting plan'
complete -c stubout -n "__fish_stubout_using_subcommand draw" -l plan -d 'Add a plan to scale: pipe at its true lengths, seen from above'
complete -c stubout -n "__fish_stubout_using_subcommand draw" -l permit-checklist -d 'Add the permit checklist to the work sheets'
complete -c stubout -n "__fish_stubout_using_subcommand draw" -l portrait -d 'Turn the paper to portrait; if neither is given, whichever takes fewer sheets'
complete -c stubout -n "__fish_stubout_using_subcommand draw" -l landscape -d 'Keep the paper landscape'
complete -c stubout -n "__fish_stubout_using_subcommand draw" -l bare -d 'Do not embed the job in the SVG: else the first sheet\'s SVG holds it and can be opened like a job'
complete -c stubout -n "__fish_stubout_using_subcommand draw" -l force -d 'Write sheets over files that this program did not write'
complete -c stubout -n "__fish_stubout_using_subcommand draw" -s h -l help -d 'Print help'
complete -c stubout -n "__fish_stubout_using_subcommand size" -l profile -d 'Your own local code settings: a profile file (copy one from assets/profiles and change it)' -r -F
complete -c stubout -n "__fish_stubout_using_subcommand size" -l lengths -d 'Lengths of your own valves, regulators and fittings for the cut list: lines of `what; size; length`' -r -F
complete -c stubout -n "__fish_stubout_using_subcommand size" -l table -d 'A capacity table of your own, which comes before the published ones; may be given again (README.md says how to write one)' -r -F
complete -c stubout -n "__fish_stubout_using_subcommand size" -l variant -d 'Show the variant of this name, and work with that' -r
complete -c stubout -n "__fish_stubout_using_subcommand size" -l json -d 'Print for machines: one JSON value, described by `stubout schema`'
complete -c stubout -n "__fish_stubout_using_subcommand size" -l csv -d 'Print comma-separated values, for a spreadsheet'
complete -c stubout -n "__fish_stubout_using_subcommand size" -s h -l help -d 'Print help'
complete -c stubout -n "__fish_stubout_using_subcommand check" -l profile -d 'Your own local code settings: a profile file (copy one from assets/profiles and change it)' -r -F
complete -c stubout -n "__fish_stubout_using_subcommand check" -l lengths -d 'Lengths of your own valves, regulators and fittings for the cut list: lines of `what; size; length`' -r -F
complete -c stubout -n "__fish_stubout_using_subcommand check" -l table -d 'A capacity table of your own, which comes before the published ones; may be given again (README.md says how to write one)' -r -F
complete -c stubout -n "__fish_stubout_using_subcommand check" -l variant -d 'Show the variant of this name, and work with that' -r
complete -c stubout -n "__fish_stubout_using_subcommand check" -l json -d 'Print for machines: one JSON value, described by `stubout schema`'
complete -c stubout -n "__fish_stubout_using_subcommand check" -s h -l help -d 'Print help'
complete -c stubout -n "__fish_stubout_using_subcommand carry" -l profile -d 'Your own local code settings: a profile file (copy one from assets/profiles and change it)' -r -F
complete -c stubout -n "__fish_stubout_using_subcommand carry" -l lengths -d 'Lengths of your own valves, regulators and fittings for the cut list: lines of `what; size; length`' -r -F
complete -c stubout -n "__fish_stubout_using_subcommand carry" -l table -d 'A capacity table of your own, which comes before the published ones; may be given again (README.md says how to write one)' -r -F
complete -c stubout -n "__fish_stubout_using_subcommand carry" -l variant -d 'Show the variant of this name, and work with that' -r
complete -c stubout -n "__fish_stubout_using_subcommand carry" -l sheet -d 'Draw a sheet of it too (ANSI B), as the ending says: .svg, .pdf, .png or .dxf' -r -F
complete -c stubout -n "__fish_stubout_using_subcommand carry" -l prices -d 'Prices of pipe by the foot or meter, one `what;price` a line, as take-off takes them: `pipe 3/4" steel;1.85`' -r -F
complete -c stubout -n "__fish_stubout_using_subcommand carry" -l json -d 'Print for machines: one JSON value, described by `stubout schema`'
complete -c stubout -n "__fish_stubout_using_subcommand carry" -l force -d 'Write the sheet over a file that this program did not write'
complete -c stubout -n "__fish_stubout_using_subcommand carry" -s h -l help -d 'Print help'
complete -c stubout -n "__fish_stubout_using_subcommand tie-in" -l profile -d 'Your own local code settings: a profile file (copy one from assets/profiles and change it)' -r -F
complete -c stubout -n "__fish_stubout_using_subcommand tie-in" -l lengths -d 'Lengths of your own valves, regulators and fittings for the cut list: lines of `what; size; length`' -r -F
complete -c stubout -n "__fish_stubout_using_subcommand tie-in" -l table -d 'A capacity table of your own, which comes before the published ones; may be given again (README.md says how to write one)' -r -F
complete -c stubout -n "__fish_stubout_using_subcommand tie-in" -l variant -d 'Show the variant of this name, and work with that' -r
complete -c stubout -n "__fish_stubout_using_subcommand tie-in" -l head -d 'Joint of the new, unconnected branch at which the line to the existing piping ends: J12' -r
complete -c stubout -n "__fish_stubout_using_subcommand tie-in" -l through -d 'A place on the grid that the line runs through, from the head toward the existing piping; may be given again' -r
complete -c stubout -n "__fish_stubout_using_subcommand tie-in" -l sheet -d 'Draw a sheet of it too (ANSI B), as the ending says: .svg, .pdf, .png or .dxf' -r -F
complete -c stubout -n "__fish_stubout_using_subcommand tie-in" -l json -d 'Print for machines: one JSON value, described by `stubout schema`'
complete -c stubout -n "__fish_stubout_using_subcommand tie-in" -l new-pipe -d 'Tap new pipe too, not only existing pipe'
complete -c stubout -n "__fish_stubout_using_subcommand tie-in" -l all -d 'Print all places, not only the best ten'
complete -c stubout -n "__fish_stubout_using_subcommand tie-in" -l force -d 'Write the sheet over a file that this program did not write'
complete -c stubout -n "__fish_stubout_using_subcommand tie-in" -s h -l help -d 'Print help'
complete -c stubout -n "__fish_stubout_using_subcommand variants" -l profile -d 'Your own local code settings: a profile file (copy one from assets/profiles and change it)' -r -F
complete -c stubout -n "__fish_stubout_using_subcommand variants" -l lengths -d 'Lengths of your own valves, regulators and fittings for the cut list: lines of `what; size; length`' -r -F
complete -c stubout -n "__fish_stubout_using_subcommand variants" -l table -d 'A capacity table of your own, which comes before the published ones; may be given again (README.md says how to write one)' -r -F
complete -c stubout -n "__fish_stubout_using_subcommand variants" -l variant -d 'Show the variant of this name, and work with that' -r
complete -c stubout -n "__fish_stubout_using_subcommand variants" -l sheet -d 'Draw a sheet of it too (ANSI B), as the ending says: .svg, .pdf, .png or .dxf' -r -F
complete -c stubout -n "__fish_stubout_using_subcommand variants" -l prices -d 'Prices of your own: lines of `what;price`, named as take-off names them' -r -F
complete -c stubout -n "__fish_stubout_using_subcommand variants" -l hours -d 'Hours of work of your own: lines of `what;hours`, for one piece, foot or meter, named as take-off names them' -r -F
complete -c stubout -n "__fish_stubout_using_subcommand variants" -l json -d 'Print for machines: one JSON value, described by `stubout schema`'
complete -c stubout -n "__fish_stubout_using_subcommand variants" -l force -d 'Write the sheet over a file that this program did not write'
complete -c stubout -n "__fish_stubout_using_subcommand variants" -s h -l help -d 'Print help'
complete -c stubout -n "__fish_stubout_using_subcommand changes" -l issued-variant -d 'Compare with this variant of the issued job; with --variant, two variants of one file are compared' -r
complete -c stubout -n "__fish_stubout_using_subcommand changes" -l profile -d 'Your own local code settings: a profile file (copy one from assets/profiles and change it)' -r -F
complete -c stubout -n "__fish_stubout_using_subcommand changes" -l lengths -d 'Lengths of your own valves, regulators and fittings for the cut list: lines of `what; size; length`' -r -F
complete -c stubout -n "__fish_stubout_using_subcommand changes" -l table -d 'A capacity table of your own, which comes before the published ones; may be given again (README.md says how to write one)' -r -F
complete -c stubout -n "__fish_stubout_using_subcommand changes" -l variant -d 'Show the variant of this name, and work with that' -r
complete -c stubout -n "__fish_stubout_using_subcommand changes" -l json -d 'Print for machines: one JSON value, described by `stubout schema`'
complete -c stubout -n "__fish_stubout_using_subcommand changes" -s h -l help -d 'Print help'
complete -c stubout -n "__fish_stubout_using_subcommand steps" -l profile -d 'Your own local code settings: a profile file (copy one from assets/profiles and change it)' -r -F
complete -c stubout -n "__fish_stubout_using_subcommand steps" -l lengths -d 'Lengths of your own valves, regulators and fittings for the cut list: lines of `what; size; length`' -r -F
complete -c stubout -n "__fish_stubout_using_subcommand steps" -l table -d 'A capacity table of your own, which comes before the published ones; may be given again (README.md says how to write one)' -r -F
complete -c stubout -n "__fish_stubout_using_subcommand steps" -l variant -d 'Show the variant of this name, and work with that' -r
complete -c stubout -n "__fish_stubout_using_subcommand steps" -l json -d 'Print for machines: one JSON value, described by `stubout schema`'
complete -c stubout -n "__fish_stubout_using_subcommand steps" -s h -l help -d 'Print help'
complete -c stubout -n "__fish_stubout_using_subcommand permit-checklist" -l profile -d 'Your own local code settings: a profile file (copy one from assets/profiles and change it)' -r -F
complete -c stubout -n "__fish_stubout_using_subcommand permit-checklist" -l lengths -d 'Lengths of your own valves, regulators and fittings for the cut list: lines of `what; size; length`' -r -F
complete -c stubout -n "__fish_stubout_using_subcommand permit-checklist" -l table -d 'A capacity table of your own, which comes before the published ones; may be given again (README.md says how to write one)' -r -F
complete -c stubout -n "__fish_stubout_using_subcommand permit-checklist" -l variant -d 'Show the variant of this name, and work with that' -r
complete -c stubout -n "__fish_stubout_using_subcommand permit-checklist" -l json -d 'Print for machines: one JSON value, described by `stubout schema`'
complete -c stubout -n "__fish_stubout_using_subcommand permit-checklist" -s h -l help -d 'Print help'
complete -c stubout -n "__fish_stubout_using_subcommand start-up" -l profile -d 'Your own local code settings: a profile file (copy one from assets/profiles and change it)' -r -F
complete -c stubout -n "__fish_stubout_using_subcommand start-up" -l lengths -d 'Lengths of your own valves, regulators and fittings for the cut list: lines of `what; size; length`' -r -F
complete -c stubout -n "__fish_stubout_using_subcommand start-up" -l table -d 'A capacity table of your own, which comes before the published ones; may be given again (README.md says how to write one)' -r -F
complete -c stubout -n "__fish_stubout_using_subcommand start-up" -l variant -d 'Show the variant of this name, and work with that' -r
complete -c stubout -n "__fish_stubout_using_subcommand start-up" -l json -d 'Print for machines: one JSON value, described by `stubout schema`'
complete -c stubout -n "__fish_stubout_using_subcommand start-up" -l csv -d 'Print comma-separated values, for a spreadsheet'
complete -c stubout -n "__fish_stubout_using_subcommand start-up" -s h -l help -d 'Print help'
complete -c stubout -n "__fish_stubout_using_subcommand test" -l profile -d 'Your own local code settings: a profile file (copy one from assets/profiles and change it)' -r -F
complete -c stubout -n "__fish_stubout_using_subcommand test" -l lengths -d 'Lengths of your own valves, regulators and fittings for the cut list: lines of `what; size; length`' -r -F
complete -c stubout -n "__fish_stubout_using_subcommand test" -l table -d 'A capacity table of your own, which comes before the published ones; may be given again (README.md says how to write one)' -r -F
complete -c stubout -n "__fish_stubout_using_subcommand test" -l variant -d 'Show the variant of this name, and work with that' -r
complete -c stubout -n "__fish_stubout_using_subcommand test" -l filled-to -d 'Reading at the start, where it is not what the profile asks for: "20 psi"' -r
complete -c stubout -n "__fish_stubout_using_subcommand test" -l at -d 'Temperature of the pipe at the start: 70F, 21C; a number alone is °F, in a metric job °C' -r
complete -c stubout -n "__fish_stubout_using_subcommand test" -l json -d 'Print for machines: one JSON value, described by `stubout schema`'
complete -c stubout -n "__fish_stubout_using_subcommand test" -s h -l help -d 'Print help'
complete -c stubout -n "__fish_stubout_using_subcommand count" -l profile -d 'Your own local code settings: a profile file (copy one from assets/profiles and change it)' -r -F
complete -c stubout -n "__fish_stubout_using_subcommand count" -l lengths -d 'Lengths of your own valves, regulators and fittings for the cut list: lines of `what; size; length`' -r -F
complete -c stubout -n "__fish_stubout_using_subcommand count" -l table -d 'A capacity table of your own, which comes before the published ones; may be given again (README.md says how to write one)' -r -F
complete -c stubout -n "__fish_stubout_using_subcommand count" -l variant -d 'Show the variant of this name, and work with that' -r
complete -c stubout -n "__fish_stubout_using_subcommand count" -l json -d 'Print for machines: one JSON value, described by `stubout schema`'
complete -c stubout -n "__fish_stubout_using_subcommand count" -s h -l help -d 'Print help'
complete -c stubout -n "__fish_stubout_using_subcommand take-off" -l profile -d 'Your own local code settings: a profile file (copy one from assets/profiles and change it)' -r -F
complete -c stubout -n "__fish_stubout_using_subcommand take-off" -l lengths -d 'Lengths of your own valves, regulators and fittings for the cut list: lines of `what; size; length`' -r -F
complete -c stubout -n "__fish_stubout_using_subcommand take-off" -l table -d 'A capacity table of your own, which comes before the published ones; may be given again (README.md says how to write one)' -r -F
complete -c stubout -n "__fish_stubout_using_subcommand take-off" -l variant -d 'Show the variant of this name, and work with that' -r
complete -c stubout -n "__fish_stubout_using_subcommand take-off" -l prices -d 'Prices of your own: lines of `what;price`, named as in the first column of --csv' -r -F
complete -c stubout -n "__fish_stubout_using_subcommand take-off" -l json -d 'Print for machines: one JSON value, described by `stubout schema`'
complete -c stubout -n "__fish_stubout_using_subcommand take-off" -l csv -d 'Print comma-separated values, for a spreadsheet'
complete -c stubout -n "__fish_stubout_using_subcommand take-off" -s h -l help -d 'Print help'
complete -c stubout -n "__fish_stubout_using_subcommand quote" -l profile -d 'Your own local code settings: a profile file (copy one from assets/profiles and change it)' -r -F
complete -c stubout -n "__fish_stubout_using_subcommand quote" -l lengths -d 'Lengths of your own valves, regulators and fittings for the cut list: lines of `what; size; length`' -r -F
complete -c stubout -n "__fish_stubout_using_subcommand quote" -l table -d 'A capacity table of your own, which comes before the published ones; may be given again (README.md says how to write one)' -r -F
complete -c stubout -n "__fish_stubout_using_subcommand quote" -l variant -d 'Show the variant of this name, and work with that' -r
complete -c stubout -n "__fish_stubout_using_subcommand quote" -l sheet -d 'Draw a sheet of it too (ANSI B), as the ending says: .svg, .pdf, .png or .dxf' -r -F
complete -c stubout -n "__fish_stubout_using_subcommand quote" -l prices -d 'Prices of your own: lines of `what;price`, named as take-off names them' -r -F
complete -c stubout -n "__fish_stubout_using_subcommand quote" -l hours -d 'Hours of work of your own: lines of `what;hours`, for one piece, foot or meter' -r -F
complete -c stubout -n "__fish_stubout_using_subcommand quote" -l rate -d 'Price of an hour' -r
complete -c stubout -n "__fish_stubout_using_subcommand quote" -l json -d 'Print for machines: one JSON value, described by `stubout schema`'
complete -c stubout -n "__fish_stubout_using_subcommand quote" -l force -d 'Write the sheet over a file that this program did not write'
complete -c stubout -n "__fish_stubout_using_subcommand quote" -s h -l help -d 'Print help'
complete -c stubout -n "__fish_stubout_using_subcommand cut" -l profile -d 'Your own local code settings: a profile file (copy one from assets/profiles and change it)' -r -F
complete -c stubout -n "__fish_stubout_using_subcommand cut" -l lengths -d 'Lengths of your own valves, regulators and fittings for the cut list: lines of `what; size; length`' -r -F
complete -c stubout -n "__fish_stubout_using_subcommand cut" -l table -d 'A capacity table of your own, which comes before the published ones; may be given again (README.md says how to write one)' -r -F
complete -c stubout -n "__fish_stubout_using_subcommand cut" -l variant -d 'Show the variant of this name, and work with that' -r
complete -c stubout -n "__fish_stubout_using_subcommand cut" -l json -d 'Print for machines: one JSON value, described by `stubout schema`'
complete -c stubout -n "__fish_stubout_using_subcommand cut" -l csv -d 'Print comma-separated values, for a spreadsheet'
complete -c stubout -n "__fish_stubout_using_subcommand cut" -s h -l help -d 'Print help'
complete -c stubout -n "__fish_stubout_using_subcommand worksheet" -l profile -d 'Your own local code settings: a profile file (copy one from assets/profiles and change it)' -r -F
complete -c stubout -n "__fish_stubout_using_subcommand worksheet" -l lengths -d 'Lengths of your own valves, regulators and fittings for the cut list: lines of `what; size; length`' -r -F
complete -c stubout -n "__fish_stubout_using_subcommand worksheet" -l table -d 'A capacity table of your own, which comes before the published ones; may be given again (README.md says how to write one)' -r -F
complete -c stubout -n "__fish_stubout_using_subcommand worksheet" -l variant -d 'Show the variant of this name, and work with that' -r
complete -c stubout -n "__fish_stubout_using_subcommand worksheet" -l blank -d 'What is blank on the worksheet; sizes leave capacities blank too' -r -f -a "sizes\t''
sizing-lengths\t''
loads\t''
capacities\t''
fitting-counts\t''
findings\t''
cut-lengths\t''
pressures\t''"
complete -c stubout -n "__fish_stubout_using_subcommand worksheet" -l set -d 'Make a class set: so many different worksheets, with inputs and lengths varied and every load well clear of a limit of its table' -r
complete -c stubout -n "__fish_stubout_using_subcommand worksheet" -l seed -d 'Which class set: the same number gives the same set' -r
complete -c stubout -n "__fish_stubout_using_subcommand worksheet" -l into -d 'Folder for the sheets; beside each job when not given' -r -F
complete -c stubout -n "__fish_stubout_using_subcommand worksheet" -l as -d 'What to write; may be given several times' -r -f -a "svg\t''
pdf\t''
png\t''"
complete -c stubout -n "__fish_stubout_using_subcommand worksheet" -l paper -d 'Paper of the sheets' -r -f -a "ansi-a\t''
ansi-b\t''
a4\t''
a3\t''"
complete -c stubout -n "__fish_stubout_using_subcommand worksheet" -l dpi -d 'Dots per inch of the PNG' -r
complete -c stubout -n "__fish_stubout_using_subcommand worksheet" -l json -d 'Print for machines: one JSON value, described by `stubout schema`'
complete -c stubout -n "__fish_stubout_using_subcommand worksheet" -l step-by-step -d 'Draw the sizing step by step, no worksheet: a sheet for each step, with the pipe and the row of the table it reads'
complete -c stubout -n "__fish_stubout_using_subcommand worksheet" -l separate -d 'Write a file for each worksheet and key of a set, not one with all worksheets and one with all keys'
complete -c stubout -n "__fish_stubout_using_subcommand worksheet" -l portrait -d 'Turn the paper to portrait'
complete -c stubout -n "__fish_stubout_using_subcommand worksheet" -l force -d 'Write over files that this program did not write'
complete -c stubout -n "__fish_stubout_using_subcommand worksheet" -s h -l help -d 'Print help'
complete -c stubout -n "__fish_stubout_using_subcommand exercise" -l outlets -d 'How many outlets: 5 to 25' -r
complete -c stubout -n "__fish_stubout_using_subcommand exercise" -l material -d 'What pipe is made of' -r -f -a "steel\t''
copper-k\t''
copper-l\t''
csst\t''"
complete -c stubout -n "__fish_stubout_using_subcommand exercise" -l gas -d 'The gas' -r -f -a "natural\t''
propane\t''"
complete -c stubout -n "__fish_stubout_using_subcommand exercise" -l method -d 'By which method it is sized' -r -f -a "longest-length\t''
branch-length\t''"
complete -c stubout -n "__fish_stubout_using_subcommand exercise" -l difficulty -d 'Easy: loads between columns and lengths between rows; medium: also a branch that the other method sizes differently; hard: also existing pipe over capacity' -r -f -a "easy\t''
medium\t''
hard\t''"
complete -c stubout -n "__fish_stubout_using_subcommand exercise" -l seed -d 'Which exercise: the same number gives the same' -r
complete -c stubout -n "__fish_stubout_using_subcommand exercise" -l force -d 'Write over a file that is there'
complete -c stubout -n "__fish_stubout_using_subcommand exercise" -l json -d 'Print for machines: one JSON value, described by `stubout schema`'
complete -c stubout -n "__fish_stubout_using_subcommand exercise" -s h -l help -d 'Print help'
complete -c stubout -n "__fish_stubout_using_subcommand mark" -l set -d 'The worksheets are of a class set of so many' -r
complete -c stubout -n "__fish_stubout_using_subcommand mark" -l seed -d 'Which class set' -r
complete -c stubout -n "__fish_stubout_using_subcommand mark" -l profile -d 'A profile of local practice of your own' -r -F
complete -c stubout -n "__fish_stubout_using_subcommand mark" -l table -d 'A capacity table of your own; may be given again' -r -F
complete -c stubout -n "__fish_stubout_using_subcommand mark" -l csv -d 'Print the class summary as comma-separated values, for a spreadsheet'
complete -c stubout -n "__fish_stubout_using_subcommand mark" -l json -d 'Print for machines: one JSON value, described by `stubout schema`'
complete -c stubout -n "__fish_stubout_using_subcommand mark" -s h -l help -d 'Print help'
complete -c stubout -n "__fish_stubout_using_subcommand rules" -l profile -d 'Give the severities and clauses under a profile: its name, or the file of one of your own' -r -F
complete -c stubout -n "__fish_stubout_using_subcommand rules" -l json -d 'Print for machines: one JSON value'
complete -c stubout -n "__fish_stubout_using_subcommand rules" -s h -l help -d 'Print help'
complete -c stubout -n "__fish_stubout_using_subcommand schema" -s h -l help -d 'Print help'
complete -c stubout -n "__fish_stubout_using_subcommand licenses" -s h -l help -d 'Print help'
