package siltwright.command;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import picocli.CommandLine;
import picocli.CommandLine.Help;
import picocli.CommandLine.MissingParameterException;
import picocli.CommandLine.Model.ArgSpec;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.Model.PositionalParamSpec;
import picocli.CommandLine.OverwrittenOptionException;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.ParseResult;
import picocli.CommandLine.UnmatchedArgumentException;
import siltwright.analysis.Action;
import siltwright.analysis.Analysis;
import siltwright.analysis.Description;
import siltwright.analysis.DocumentWriter;
import siltwright.analysis.ExactNumber;
import siltwright.analysis.FileParameter;
import siltwright.analysis.FlagParameter;
import siltwright.analysis.FleetFileParameter;
import siltwright.analysis.ListParameter;
import siltwright.analysis.Parameter;
import siltwright.analysis.RecordsFolderParameter;
import siltwright.analysis.RecordsParameter;
import siltwright.analysis.Scope;
import siltwright.exchange.HistoryTable;
import siltwright.model.InputException;
import siltwright.model.Problem;

/** Commands, options and help, made from the descriptions of the analyses. */
final class Syntax {
  static final String FILE = "FILE";
  static final String JSON = "json";
  static final String REPORT = "report";
  static final String CSV = "csv";
  static final String LOG = "log";
  static final String MACHINE = "machine";
  static final String ROWS = "rows";

  private static final String PROGRAM = "siltwright";
  private static final String HELP = "help";
  private static final String OPEN = "open";
  private static final String VERSION = "version";
  private static final List<String> COMMON = List.of(JSON, REPORT, CSV, LOG, MACHINE, ROWS);

  private final String version;
  private final SortedMap<String, Analysis> analyses;
  private final SortedMap<String, Action> actions;
  private final SortedMap<String, Description> commands = new TreeMap<>();
  private final boolean withReport;
  private final boolean withWindow;
  private final boolean withStore;
  private final Documents documents;

  /**
   * Makes the syntax.
   *
   * @param version version of the program
   * @param analyses analyses by id
   * @param actions actions by id, none of which bears the name of an analysis
   * @param withReport whether reports can be written
   * @param withWindow whether a window can be opened
   * @param withStore whether records can come from a store
   * @param documents documents that single analyses write
   */
  Syntax(
      String version,
      SortedMap<String, Analysis> analyses,
      SortedMap<String, Action> actions,
      boolean withReport,
      boolean withWindow,
      boolean withStore,
      Documents documents) {
    this.version = version;
    this.analyses = analyses;
    this.actions = actions;
    analyses.forEach((id, analysis) -> commands.put(id, analysis.description()));
    actions.forEach((id, action) -> commands.put(id, action.description()));
    this.withReport = withReport;
    this.withWindow = withWindow;
    this.withStore = withStore;
    this.documents = documents;
  }

  /**
   * Reads arguments.
   *
   * @throws InputException if they are at fault
   */
  Request read(String... args) {
    if (args.length == 0) {
      throw fault(PROGRAM, "", "no command", "a command, such as " + PROGRAM + " --help");
    }
    CommandLine line = commandLine(args);
    try {
      return request(line.parseArgs(args));
    } catch (ParameterException e) {
      throw explained(e);
    }
  }

  private Request request(ParseResult root) {
    if (root.isVersionHelpRequested()) {
      return new Request.Show(PROGRAM + " " + version + "\n", false);
    }
    if (!root.hasSubcommand()) {
      return help(root.commandSpec());
    }
    ParseResult sub = root.subcommand();
    String name = sub.commandSpec().name();
    if (name.equals(HELP)) {
      return helpOn(root.commandSpec(), sub.matchedPositionalValue(0, ""));
    }
    if (root.isUsageHelpRequested() || sub.isUsageHelpRequested()) {
      return help(sub.commandSpec());
    }
    if (withWindow && name.equals(OPEN)) {
      return new Request.Open(Optional.ofNullable(sub.<String>matchedPositionalValue(0, null)));
    }
    Map<String, String> texts = new LinkedHashMap<>();
    for (Parameter<?> p : commands.get(name).parameters()) {
      put(texts, p.name(), sub);
    }
    Map<String, String> options = new LinkedHashMap<>();
    COMMON.forEach(option -> put(options, option, sub));
    documents.of(name).forEach(form -> put(options, form.option(), sub));
    if (sub.hasMatchedPositional(0)) {
      options.put(FILE, sub.matchedPositionalValue(0, ""));
    }
    Analysis analysis = analyses.get(name);
    return analysis != null
        ? new Request.Run(analysis, texts, options)
        : new Request.Act(actions.get(name), texts, options);
  }

  private static void put(Map<String, String> values, String name, ParseResult from) {
    if (from.hasMatchedOption("--" + name)) {
      if (from.matchedOption("--" + name).isMultiValue()) {
        List<String> all = from.matchedOptionValue("--" + name, List.of());
        values.put(name, String.join(",", all));
        return;
      }
      values.put(name, from.<Object>matchedOptionValue("--" + name, "").toString());
    }
  }

  private Request helpOn(CommandSpec root, String name) {
    if (name.isEmpty()) {
      return help(root);
    }
    CommandLine sub = root.subcommands().get(name);
    if (sub == null) {
      throw unknown(root, name);
    }
    return help(sub.getCommandSpec());
  }

  private static Request help(CommandSpec spec) {
    // Options are read with "=" or a space before the value; help shows the space.
    spec.parser().separator(" ");
    String text = spec.commandLine().getUsageMessage(Help.Ansi.OFF);
    boolean options = spec.parent() != null;
    return new Request.Show(text.replace(System.lineSeparator(), "\n"), options);
  }

  private CommandLine commandLine(String... args) {
    CommandSpec root =
        command(PROGRAM, "Decides when, how and at what worth a return-line filter is changed.");
    root.addOption(
        OptionSpec.builder("-V", "--" + VERSION)
            .versionHelp(true)
            .description("Shows the version.")
            .build());
    root.usageMessage()
        .synopsisSubcommandLabel("COMMAND")
        .commandListHeading("%nCommands:%n")
        .footer(
            "",
            "Help on a command: " + PROGRAM + " COMMAND --help",
            "Exit codes: 0 done, 2 the input or the options are at fault, 1 the program is.");
    // Only the command that is named gets its options: the others are a line in a list.
    List<String> words = Arrays.asList(args);
    commands.forEach(
        (id, d) -> root.addSubcommand(id, words.contains(id) ? full(d) : command(id, d.summary())));
    if (withWindow) {
      CommandSpec open = command(OPEN, "Opens the window; so does no command at all.");
      open.addPositional(
          PositionalParamSpec.builder()
              .index("0")
              .arity("0..1")
              .paramLabel(FILE)
              .type(String.class)
              .description("Fleet file (JSON) to open in it.")
              .build());
      root.addSubcommand(OPEN, open);
    }
    CommandSpec help = command(HELP, "Shows help on a command.");
    help.addPositional(
        PositionalParamSpec.builder()
            .index("0")
            .arity("0..1")
            .paramLabel("COMMAND")
            .type(String.class)
            .description("The command.")
            .build());
    root.addSubcommand(HELP, help);
    CommandLine line = new CommandLine(root);
    line.setExpandAtFiles(false);
    line.setInterpolateVariables(false);
    return line;
  }

  private static CommandSpec command(String name, String description) {
    CommandSpec spec = CommandSpec.create().name(name);
    spec.usageMessage()
        .width(TextTable.WIDTH)
        .sortOptions(false)
        .sortSynopsis(false)
        // a format to picocli, unlike the descriptions of options
        .description(description.replace("%", "%%"));
    return spec.addOption(
        OptionSpec.builder("-h", "--" + HELP)
            .usageHelp(true)
            .description("Shows this help.")
            .build());
  }

  private CommandSpec full(Description d) {
    CommandSpec spec = command(d.id(), d.summary());
    Action action = actions.get(d.id());
    String file = action == null ? fileOf(d.scope()) : action.file();
    if (!file.isEmpty()) {
      spec.addPositional(
          PositionalParamSpec.builder()
              .index("0")
              .arity("1")
              .required(true)
              .paramLabel(FILE)
              .type(String.class)
              .description(file)
              .build());
    }
    if (d.scope() == Scope.MACHINE) {
      spec.addOption(
          valued(
              MACHINE,
              "ID",
              "Only the machine with this id; every machine of the file if not given."));
    }
    if (d.scope() == Scope.RECORDS && withStore) {
      spec.addOption(
          valued(
              ROWS,
              "KIND",
              "What a row is, where FILE is a store: "
                  + HistoryTable.words()
                  + "; KIND/NAME takes the component, code or filter of that name alone."));
    }
    d.parameters().forEach(p -> spec.addOption(option(p)));
    for (DocumentWriter.Form form : documents.of(d.id())) {
      spec.addOption(
          valued(form.option(), Documents.label(form), sentence("writes " + form.meaning())));
    }
    spec.addOption(
        OptionSpec.builder("--" + JSON)
            .type(boolean.class)
            .arity("0")
            .description("Prints the result as JSON.")
            .build());
    if (action == null && withReport) {
      spec.addOption(valued(REPORT, "FILE.html", "Writes a report to this file as well."));
    }
    if (action == null) {
      spec.addOption(
          valued(
              CSV,
              "FOLDER",
              "Writes each table to this folder as well, NAME.csv"
                  + (d.scope() == Scope.MACHINE
                      ? "; of several machines, each to a folder of its own in it."
                      : ".")));
    }
    spec.addOption(
        valued(LOG, "FILE", "Writes the details to this file if the program itself fails."));
    return spec;
  }

  private static String fileOf(Scope scope) {
    return switch (scope) {
      case NONE -> "";
      case RECORDS ->
          "Table of records (CSV, names of the columns in its first row), or a store with --rows.";
      case HISTORY -> "Store (a file, or jdbc:postgresql://HOST/DATABASE?user=NAME).";
      case MACHINE, FLEET -> "Fleet file (JSON).";
    };
  }

  private static OptionSpec valued(String name, String label, String description) {
    return OptionSpec.builder("--" + name)
        .paramLabel(label)
        .type(String.class)
        .arity("1")
        .description(description)
        .build();
  }

  private static OptionSpec option(Parameter<?> p) {
    OptionSpec.Builder option = OptionSpec.builder("--" + p.name());
    if (p instanceof FlagParameter) {
      return option.type(boolean.class).arity("0").description(sentence(p.meaning())).build();
    }
    if (p instanceof ListParameter) {
      return option
          .paramLabel("VALUE")
          .type(List.class)
          .auxiliaryTypes(String.class)
          .arity("1")
          .description(
              sentence(p.meaning())
                  + " Value: "
                  + p.form()
                  + ". May be given several times, or with commas between values.")
          .build();
    }
    String standard = p.standard().map(v -> " Default: " + plainNumber(v) + ".").orElse("");
    return option
        .paramLabel(label(p))
        .type(String.class)
        .arity("1")
        .required(p.required())
        .description(sentence(p.meaning()) + " Value: " + p.form() + "." + standard)
        .build();
  }

  private static String label(Parameter<?> p) {
    if (p instanceof FleetFileParameter) {
      return "FLEET.json";
    }
    if (p instanceof RecordsFolderParameter) {
      return "FOLDER";
    }
    return p instanceof RecordsParameter
        ? "TABLE.csv"
        : p instanceof FileParameter ? FILE : "VALUE";
  }

  private static String plainNumber(Object value) {
    return value instanceof Double d ? ExactNumber.text(d) : value.toString();
  }

  private static String sentence(String text) {
    return Character.toUpperCase(text.charAt(0))
        + text.substring(1)
        + (text.endsWith(".") ? "" : ".");
  }

  private static InputException explained(ParameterException e) {
    String command = e.getCommandLine().getCommandSpec().qualifiedName();
    if (e instanceof UnmatchedArgumentException unmatched) {
      return unknown(e.getCommandLine().getCommandSpec(), unmatched.getUnmatched().get(0));
    }
    if (e instanceof MissingParameterException missing && !missing.getMissing().isEmpty()) {
      ArgSpec arg = missing.getMissing().get(0);
      String what = arg.paramLabel() + ": " + String.join(" ", arg.description());
      return fault(command, name(arg), "nothing", what);
    }
    if (e instanceof OverwrittenOptionException twice) {
      return fault(command, name(twice.getOverwritten()), "it twice", "it once");
    }
    return fault(command, "", Text.clean(e.getMessage()), "what " + command + " --help says");
  }

  private static String name(ArgSpec arg) {
    return arg instanceof OptionSpec option ? option.longestName() : arg.paramLabel();
  }

  private static InputException unknown(CommandSpec spec, String word) {
    List<String> known = new ArrayList<>();
    boolean option = word.startsWith("-");
    if (option) {
      spec.options().forEach(o -> known.addAll(List.of(o.names())));
    } else {
      known.addAll(spec.subcommands().keySet());
    }
    String name = spec.qualifiedName();
    String kind = (option ? "an option" : "a command") + " that " + name + " --help lists";
    String nearest = Text.nearest(word, known).map(n -> "; the nearest is " + n).orElse("");
    return fault(name, "", word, known.isEmpty() ? "nothing more" : kind + nearest);
  }

  private static InputException fault(String source, String place, String value, String expected) {
    return new InputException(new Problem(source, place, value, expected));
  }
}
