package siltwright.features;

import static com.tngtech.archunit.base.DescribedPredicate.describe;
import static com.tngtech.archunit.base.DescribedPredicate.not;
import static com.tngtech.archunit.core.domain.JavaClass.Predicates.resideInAnyPackage;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;

import com.tngtech.archunit.base.DescribedPredicate;
import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.junit.AnalyzeClasses;
import com.tngtech.archunit.junit.ArchTest;
import com.tngtech.archunit.lang.ArchCondition;
import com.tngtech.archunit.lang.ArchRule;
import com.tngtech.archunit.lang.ConditionEvents;
import com.tngtech.archunit.lang.SimpleConditionEvent;
import com.tngtech.archunit.library.dependencies.SliceAssignment;
import com.tngtech.archunit.library.dependencies.SliceIdentifier;
import java.util.Set;

/**
 * Who may see whom: data flow one way, from the model over the contract and the engines to what
 * shows results, and nothing on the right is known to anything on its left.
 */
@AnalyzeClasses(
    packages = "siltwright",
    importOptions = {ImportOption.DoNotIncludeTests.class})
class ArchitectureIT {

  private static final String[] OSGI = {"org.osgi..", "org.apache.felix.."};
  private static final Set<String> PRESENTATION =
      Set.of("charts", "report", "paper", "command", "workbench");
  private static final Set<String> OUTSIDE = Set.of("launcher", "features");

  /** Whatever is neither model, contract, presentation nor outside OSGi computes. */
  private static final DescribedPredicate<JavaClass> ENGINES =
      describe(
          "engines",
          type ->
              isOurs(type)
                  && !isPresentation(type)
                  && !OUTSIDE.contains(bundle(type))
                  && !Set.of("model", "analysis").contains(bundle(type)));

  @ArchTest
  static final ArchRule MODEL_KNOWS_NOTHING_OF_OURS_BUT_ITSELF =
      noClasses()
          .that()
          .resideInAPackage("siltwright.model..")
          .should()
          .dependOnClassesThat(ours().and(describe("elsewhere", t -> !bundle(t).equals("model"))));

  @ArchTest
  static final ArchRule CONTRACT_KNOWS_THE_MODEL_ONLY =
      noClasses()
          .that()
          .resideInAPackage("siltwright.analysis..")
          .should()
          .dependOnClassesThat(
              ours()
                  .and(
                      describe("elsewhere", t -> !Set.of("model", "analysis").contains(bundle(t)))))
          .allowEmptyShould(true);

  @ArchTest
  static final ArchRule ENGINES_KNOW_NO_PRESENTATION =
      noClasses()
          .that(ENGINES)
          .should()
          .dependOnClassesThat(ours().and(describe("presentation", ArchitectureIT::isPresentation)))
          .allowEmptyShould(true);

  @ArchTest
  static final ArchRule CHARTS_AND_REPORT_KNOW_NO_ENGINE =
      noClasses()
          .that()
          .resideInAnyPackage("siltwright.charts..", "siltwright.report..")
          .should()
          // what calls add-ons is none, and a report has their sections
          .dependOnClassesThat(ENGINES.and(not(resideInAnyPackage("siltwright.addons"))))
          .allowEmptyShould(true);

  @ArchTest
  static final ArchRule ENGINES_ARE_PLAIN_JAVA =
      noClasses()
          .that(ENGINES.or(resideInAnyPackage("siltwright.model..", "siltwright.analysis..")))
          .and()
          .resideOutsideOfPackage("..internal..")
          .and()
          .doNotHaveSimpleName("package-info")
          .should()
          .dependOnClassesThat(
              resideInAnyPackage(OSGI)
                  // says that a type is for others to implement; leaves no trace in the bytecode's
                  // run
                  .and(DescribedPredicate.not(resideInAnyPackage("org.osgi.annotation.."))));

  @ArchTest
  static final ArchRule COMPONENTS_USE_ANNOTATIONS_ONLY =
      noClasses()
          .that(ours().and(describe("in OSGi", t -> !OUTSIDE.contains(bundle(t)))))
          .should()
          .dependOnClassesThat(
              resideInAnyPackage(OSGI)
                  .and(
                      DescribedPredicate.not(
                          resideInAnyPackage(
                              "org.osgi.annotation..",
                              "org.osgi.service.component.annotations.."))));

  @ArchTest
  static final ArchRule ONLY_PRESENTATION_DRAWS =
      noClasses()
          .that(ours().and(describe("that do not draw", t -> !draws(t))))
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage("java.awt..", "javax.swing..");

  /** {@code docs/security.md}: no port is open to others. */
  @ArchTest
  static final ArchRule NOTHING_LISTENS =
      noClasses()
          .that(ours())
          .should()
          .dependOnClassesThat()
          .haveNameMatching(
              "java\\.net\\.(ServerSocket|DatagramSocket|MulticastSocket)"
                  + "|java\\.nio\\.channels\\..*(ServerSocket|Datagram).*"
                  + "|com\\.sun\\.net\\.httpserver\\..*|java\\.rmi\\..*");

  @ArchTest
  static final ArchRule NOTHING_SEES_ANOTHER_BUNDLES_INTERNALS =
      noClasses()
          .that(ours())
          .should(
              new ArchCondition<JavaClass>("depend on an internal package of another bundle") {
                @Override
                public void check(JavaClass type, ConditionEvents events) {
                  type.getDirectDependenciesFromSelf().stream()
                      .filter(d -> isOurs(d.getTargetClass()))
                      .filter(d -> d.getTargetClass().getPackageName().contains(".internal"))
                      .filter(d -> !bundle(type).equals(bundle(d.getTargetClass())))
                      .forEach(
                          d -> events.add(SimpleConditionEvent.satisfied(d, d.getDescription())));
                }
              });

  @ArchTest
  static final ArchRule BUNDLES_HAVE_NO_CYCLES =
      slices()
          .assignedFrom(
              new SliceAssignment() {
                @Override
                public SliceIdentifier getIdentifierOf(JavaClass type) {
                  return isOurs(type) ? SliceIdentifier.of(bundle(type)) : SliceIdentifier.ignore();
                }

                @Override
                public String getDescription() {
                  return "bundles, a view's being one of its own";
                }
              })
          .should()
          .beFreeOfCycles();

  private static DescribedPredicate<JavaClass> ours() {
    return describe("of Siltwright", ArchitectureIT::isOurs);
  }

  private static boolean isOurs(JavaClass type) {
    return type.getPackageName().startsWith("siltwright.");
  }

  private static boolean draws(JavaClass type) {
    // the launcher wakes the toolkit beside the framework
    return Set.of("charts", "report", "paper", "workbench").contains(bundle(type))
        || isView(type)
        || type.getName().startsWith("siltwright.launcher.Display");
  }

  private static boolean isPresentation(JavaClass type) {
    return PRESENTATION.contains(bundle(type)) || isView(type);
  }

  /** Returns whether a type is of a view's bundle, siltwright.SUBJECT.view. */
  private static boolean isView(JavaClass type) {
    return bundle(type).endsWith(".view");
  }

  /** Returns what follows "siltwright." in a package's name and names the bundle. */
  private static String bundle(JavaClass type) {
    String[] words = type.getPackageName().split("\\.");
    return !isOurs(type)
        ? ""
        : words.length > 2 && words[2].equals("view") ? words[1] + ".view" : words[1];
  }
}
