package siltwright.command;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import siltwright.analysis.Action;
import siltwright.analysis.Description;
import siltwright.analysis.Progress;
import siltwright.analysis.Result;
import siltwright.analysis.Scope;
import siltwright.analysis.TextParameter;
import siltwright.analysis.Values;
import siltwright.model.InputException;
import siltwright.model.Problem;

/** Actions are commands beside the analyses. */
class ActionsTest {
  private static final TextParameter TO = TextParameter.required("to", "a place", "where to");
  private static final Description D =
      Description.of("carry", "Carry", "Carries a file.", Scope.NONE, TO);

  private final Session session =
      new Session()
          .with(
              new Action() {
                @Override
                public Description description() {
                  return D;
                }

                @Override
                public String file() {
                  return "What is carried.";
                }

                @Override
                public Result run(String file, Values values, Progress progress) {
                  if (file.equals("stone")) {
                    throw new InputException(new Problem(file, "", "", "something light"));
                  }
                  int refused = file.equals("half") ? 1 : 0;
                  Problem p = new Problem(file, "row 2", "x", "y");
                  return Result.of(D, "", values)
                      .value("carried", "Carried", file + " to " + values.get(TO))
                      .rows(
                          new Result.Rows(
                              2, 2 - refused, refused, refused > 0 ? List.of(p) : List.of()))
                      .build();
                }
              });

  @Test
  void itIsDoneAndTold() {
    assertEquals(0, session.run("carry", "straw", "--to", "barn"));
    assertTrue(session.out().contains("straw to barn"), session.out());
    assertEquals(0, session.run("carry", "straw", "--to", "barn", "--json"));
    assertTrue(session.out().contains("\"analysis\": \"carry\""), session.out());
    assertTrue(session.out().contains("\"carried\": \"straw to barn\""), session.out());
  }

  @Test
  void helpShowsItsFileAndNoOptionsOfAnalyses() {
    assertEquals(0, session.run("carry", "--help"));
    assertTrue(session.out().contains("What is carried."), session.out());
    assertTrue(!session.out().contains("--csv"), session.out());
    assertEquals(0, session.run("--help"));
    assertTrue(session.out().contains("Carries a file."), session.out());
  }

  @Test
  void faultsAndRefusedRowsAreTheInputs() {
    assertEquals(2, session.run("carry", "stone", "--to", "barn"));
    assertTrue(session.err().contains("something light"), session.err());
    assertEquals(2, session.run("carry", "half", "--to", "barn"));
    assertTrue(session.err().contains("half row 2: found x; expected y"), session.err());
    assertEquals(2, session.run("carry", "straw"));
    assertTrue(session.err().contains("--to"), session.err());
  }
}
