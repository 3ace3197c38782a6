package org.benchstroke;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;

import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.junit.AnalyzeClasses;
import com.tngtech.archunit.junit.ArchTest;
import com.tngtech.archunit.lang.ArchRule;
import org.benchstroke.aids.diagnosis.Diagnosis;
import org.benchstroke.aids.twin.Twin;
import org.benchstroke.judge.JudgedRun;

/** The package rules of DEVELOPERS.md. None is frozen: a broken rule is mended or argued. */
@AnalyzeClasses(
    packages = "org.benchstroke",
    importOptions = {ImportOption.DoNotIncludeTests.class})
class ArchitectureTest {
  private static final String ROOT = "org.benchstroke.";

  @ArchTest
  static final ArchRule noCycles = slices().matching(ROOT + "(*)..").should().beFreeOfCycles();

  @ArchTest static final ArchRule quantityKnowsNothing = knowsOnly("core.quantity");

  @ArchTest static final ArchRule clockKnowsNothing = knowsOnly("core.clock");

  @ArchTest static final ArchRule transportKnowsTheCoreOnly = knowsOnly("io.transport", "core");

  @ArchTest
  static final ArchRule rolesKnowBytesAndTheCoreOnly =
      knowsOnly("io.instrument", "io.transport", "core");

  @ArchTest
  static final ArchRule analysisKnowsQuantitiesOnly = knowsOnly("core.analysis", "core.quantity");

  @ArchTest static final ArchRule uncertaintyKnowsNothing = knowsOnly("core.uncertainty");

  @ArchTest
  static final ArchRule statisticsKnowQuantitiesOnly =
      knowsOnly("core.statistics", "core.quantity");

  @ArchTest
  static final ArchRule modelKnowsQuantitiesOnly = knowsOnly("core.model", "core.quantity");

  @ArchTest static final ArchRule filesKnowNothing = knowsOnly("core.files");

  @ArchTest
  static final ArchRule recordKnowsTimeAndFiles = knowsOnly("record", "core.clock", "core.files");

  @ArchTest
  static final ArchRule runKnowsNoVerdict =
      noClasses()
          .that()
          .resideInAPackage(ROOT + "run..")
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage(ROOT + "judge..", ROOT + "papers..", ROOT + "core.model..");

  /** It sets pages, whatever they say. */
  @ArchTest static final ArchRule whatSetsPagesKnowsNoRun = knowsOnly("papers.pdf", "papers.plot");

  /** A test has its folder, and what several of them need lies below. */
  @ArchTest
  static final ArchRule testsDoNotKnowEachOther =
      slices().matching(ROOT + "tests.(*)..").should().notDependOnEachOther();

  @ArchTest
  static final ArchRule whatCarriesTestsOutOrJudgesThemNamesNone =
      noClasses()
          .that()
          .resideInAnyPackage(ROOT + "procedure..", ROOT + "run..", ROOT + "judge..")
          .should()
          .dependOnClassesThat()
          .resideInAPackage(ROOT + "tests..");

  /** Each is found in files of others by what its folder says of it. */
  @ArchTest
  static final ArchRule whatTakesFilesOfOthersNamesNoTestAndJudgesNothing =
      noClasses()
          .that()
          .resideInAPackage(ROOT + "imported..")
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage(ROOT + "tests..", ROOT + "judge..");

  @ArchTest
  static final ArchRule proceduresKnowNoJudge =
      noClasses()
          .that()
          .resideInAPackage(ROOT + "procedure..")
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage(ROOT + "judge..", ROOT + "run..");

  @ArchTest
  static final ArchRule diagnosisReadsJudgedRuns =
      noClasses()
          .that()
          .resideInAPackage(ROOT + "aids.diagnosis..")
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage(
              ROOT + "run..", ROOT + "papers..", ROOT + "core.model..", ROOT + "simulator..");

  /** Once a run: what shows it gets the run's aids. */
  @ArchTest
  static final ArchRule whatShowsTheAidsDoesNotComputeThem =
      noClasses()
          .that()
          .resideInAnyPackage(ROOT + "papers..", ROOT + "app..", ROOT + "web..", ROOT + "cli..")
          .should()
          .callMethod(Twin.class, "of", JudgedRun.class)
          .orShould()
          .callMethod(Diagnosis.class, "of", JudgedRun.class);

  @ArchTest
  static final ArchRule theTwinReadsJudgedRuns =
      knowsOnly(
          "aids.twin",
          "judge",
          "record",
          "bench",
          "unit",
          "core.analysis",
          "core.uncertainty",
          "core.model",
          "core.quantity");

  @ArchTest
  static final ArchRule commissioningTakesNoFigures =
      noClasses()
          .that()
          .resideInAPackage(ROOT + "commission..")
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage(
              ROOT + "judge..", ROOT + "core.analysis..", ROOT + "papers..", ROOT + "core.model..");

  /** A step of it is no test, and what it measures is no figure of one. */
  @ArchTest
  static final ArchRule settingUpKnowsNoTestAndNoVerdict =
      noClasses()
          .that()
          .resideInAPackage(ROOT + "setup..")
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage(
              ROOT + "judge..",
              ROOT + "tests..",
              ROOT + "papers..",
              ROOT + "core.analysis..",
              ROOT + "core.model..");

  /** What each driver knows: the roles that it plays, bytes and the core. */
  @ArchTest static final ArchRule modbusKnowsNoOtherDriver = driverKnowsItsRoles("io.modbus");

  @ArchTest static final ArchRule scpiKnowsNoOtherDriver = driverKnowsItsRoles("io.scpi");

  @ArchTest static final ArchRule lineKnowsNoOtherDriver = driverKnowsItsRoles("io.line");

  /** What belongs to one language is its driver's; the bench file has a line for each. */
  @ArchTest
  static final ArchRule theBenchFileKnowsDriversByItsCatalogueOnly =
      noClasses()
          .that()
          .resideInAPackage(ROOT + "bench..")
          .and()
          .doNotHaveFullyQualifiedName(ROOT + "bench.Languages")
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage(ROOT + "io.modbus..", ROOT + "io.scpi..", ROOT + "io.line..");

  @ArchTest static final ArchRule coreKnowsNoBench = knowsOnly("core");

  @ArchTest
  static final ArchRule theUnitTypeKnowsRolesOnly = knowsOnly("unit", "core", "io.instrument");

  @ArchTest static final ArchRule ioKnowsNoUnit = knowsOnly("io", "core");

  /** A verdict is a function of the record: it needs no port. */
  @ArchTest
  static final ArchRule whatJudgesTouchesNoSerialStack =
      noClasses()
          .that()
          .resideInAnyPackage(
              ROOT + "judge..",
              ROOT + "tests..",
              ROOT + "aids..",
              ROOT + "papers..",
              ROOT + "procedure..",
              ROOT + "unit..")
          .should()
          .transitivelyDependOnClassesThat()
          .resideInAnyPackage("com.fazecast..", "com.ghgande..");

  @ArchTest
  static final ArchRule simulatorIsReachedFromFacesAndTheirLayerOnly =
      noClasses()
          .that()
          .resideOutsideOfPackages(ROOT + "simulator..", ROOT + "app..", ROOT + "cli..")
          .should()
          .dependOnClassesThat()
          .resideInAPackage(ROOT + "simulator..");

  @ArchTest
  static final ArchRule practiceIsReachedFromFacesAndTheirLayerOnly =
      noClasses()
          .that()
          .resideOutsideOfPackages(ROOT + "simulator.practice..", ROOT + "app..", ROOT + "cli..")
          .should()
          .dependOnClassesThat()
          .resideInAPackage(ROOT + "simulator.practice..");

  /** The records are the truth, and nothing that makes or judges them asks a database. */
  @ArchTest
  static final ArchRule theArchiveIsKnownToFacesAndTheirLayerOnly =
      noClasses()
          .that()
          .resideOutsideOfPackages(
              ROOT + "archive..", ROOT + "app..", ROOT + "web..", ROOT + "cli..")
          .should()
          .dependOnClassesThat()
          .resideInAPackage(ROOT + "archive..");

  @ArchTest
  static final ArchRule onlyTheArchiveKnowsDatabases =
      noClasses()
          .that()
          .resideOutsideOfPackage(ROOT + "archive..")
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage(
              "java.sql..",
              "javax.sql..",
              "org.jdbi..",
              "org.flywaydb..",
              "org.sqlite..",
              "org.postgresql..",
              "com.zaxxer..");

  @ArchTest
  static final ArchRule theArchiveKnowsWhatIsJudged =
      knowsOnly(
          "archive",
          "aids",
          "tests",
          "judge",
          "procedure",
          "bench",
          "record",
          "unit",
          "io",
          "core");

  /** What a terminal and a screen both call. */
  @ArchTest
  static final ArchRule theLayerOfTheFacesIsKnownToThemOnly =
      noClasses()
          .that()
          .resideOutsideOfPackages(ROOT + "app..", ROOT + "web..", ROOT + "cli..")
          .should()
          .dependOnClassesThat()
          .resideInAPackage(ROOT + "app..");

  @ArchTest
  static final ArchRule theScreenIsKnownToTheCommandThatOpensItOnly =
      noClasses()
          .that()
          .resideOutsideOfPackages(ROOT + "web..", ROOT + "cli..", "gg.jte.generated..")
          .should()
          .dependOnClassesThat()
          .resideInAPackage(ROOT + "web..");

  @ArchTest
  static final ArchRule onlyTheScreenServesPages =
      noClasses()
          .that()
          .resideOutsideOfPackage(ROOT + "web..")
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage("io.javalin..", "jakarta.servlet..", "org.eclipse.jetty..");

  @ArchTest
  static final ArchRule theLayerOfTheFacesHasNoTerminal =
      noClasses()
          .that()
          .resideInAPackage(ROOT + "app..")
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage("picocli..", "org.jline..");

  @ArchTest
  static final ArchRule nobodyKnowsTheCommandLine =
      noClasses()
          .that()
          .resideOutsideOfPackage(ROOT + "cli..")
          .should()
          .dependOnClassesThat()
          .resideInAPackage(ROOT + "cli..");

  @ArchTest
  static final ArchRule timeComesFromTheClock =
      noClasses()
          .that()
          .resideOutsideOfPackage(ROOT + "core.clock..")
          .should()
          .callMethod(System.class, "nanoTime")
          .orShould()
          .callMethod(System.class, "currentTimeMillis")
          .orShould()
          .callMethod(java.time.Instant.class, "now")
          .orShould()
          .callMethod(Thread.class, "sleep", long.class)
          .orShould()
          .callConstructor(java.util.Random.class);

  @ArchTest
  static final ArchRule onlyTheCommandLinePrints =
      noClasses()
          .that()
          .resideOutsideOfPackage(ROOT + "cli..")
          .should()
          .accessField(System.class, "out")
          .orShould()
          .accessField(System.class, "err")
          .orShould()
          .callMethod(Throwable.class, "printStackTrace");

  /** A command reads what it was given, so that tests can carry it out beside other tests. */
  @ArchTest
  static final ArchRule standardInputIsHandedIn =
      noClasses()
          .that()
          .doNotHaveFullyQualifiedName(ROOT + "cli.Input")
          .should()
          .accessField(System.class, "in");

  @ArchTest
  static final ArchRule behaviourIsNotInherited =
      classes()
          .that()
          .areNotInterfaces()
          .and()
          .areNotRecords()
          .and()
          .areNotEnums()
          .and()
          .areNotAnonymousClasses()
          .and()
          .areTopLevelClasses()
          .should()
          .haveModifier(com.tngtech.archunit.core.domain.JavaModifier.FINAL)
          .because("small final classes, no inheritance of behaviour");

  private static ArchRule driverKnowsItsRoles(String driver) {
    return knowsOnly(driver, "io.instrument", "io.transport", "core");
  }

  /** Of our own packages, one may know these and itself. */
  private static ArchRule knowsOnly(String room, String... others) {
    String[] allowed = new String[others.length + 1];
    allowed[0] = ROOT + room + "..";
    for (int i = 0; i < others.length; i++) {
      allowed[i + 1] = ROOT + others[i] + "..";
    }
    return noClasses()
        .that()
        .resideInAPackage(ROOT + room + "..")
        .should()
        .dependOnClassesThat(
            com.tngtech.archunit.core.domain.JavaClass.Predicates.resideInAPackage(
                    "org.benchstroke..")
                .and(
                    com.tngtech.archunit.base.DescribedPredicate.not(
                        com.tngtech.archunit.core.domain.JavaClass.Predicates.resideInAnyPackage(
                            allowed))));
  }
}
