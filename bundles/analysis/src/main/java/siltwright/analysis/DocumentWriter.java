package siltwright.analysis;

import java.util.List;
import org.osgi.annotation.versioning.ConsumerType;

/**
 * Writes files of its own kind about what an analysis found, such as a sheet to take along: a
 * second service beside the {@link Analysis}, whose command then has an option for it. It knows how
 * things look, which the analysis does not.
 */
@ConsumerType
public interface DocumentWriter {
  /**
   * What it writes.
   *
   * @param analysis id of the analysis
   * @param option name of the option that asks for it: lower case, hyphens
   * @param endings endings of the file it can write, such as {@code pdf}; none if it fills a folder
   * @param meaning what is written, in one clause
   */
  record Form(String analysis, String option, List<String> endings, String meaning) {
    public Form {
      endings = List.copyOf(endings);
    }

    /** Returns whether it fills a folder rather than writing one file. */
    public boolean isFolder() {
      return endings.isEmpty();
    }
  }

  /**
   * A file.
   *
   * @param name its name in the folder; empty where one file is written, which the user names
   * @param content its bytes; not modified
   */
  record Output(String name, byte[] content) {}

  /** Returns what it writes. */
  Form form();

  /**
   * Writes. The same arguments give the same bytes.
   *
   * @param ending which of the endings; empty for a folder
   * @param contexts what the analysis ran on with success, in order
   * @param values the values it ran with
   * @param progress told how far the work is
   * @return one file, or those of the folder
   * @throws siltwright.model.InputException as the analysis does
   * @throws java.util.concurrent.CancellationException if asked to stop
   */
  List<Output> write(String ending, List<Context> contexts, Values values, Progress progress);
}
