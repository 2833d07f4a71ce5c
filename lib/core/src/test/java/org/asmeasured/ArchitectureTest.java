package org.asmeasured;

import static com.tngtech.archunit.base.DescribedPredicate.describe;
import static com.tngtech.archunit.base.DescribedPredicate.not;
import static com.tngtech.archunit.core.domain.JavaClass.Predicates.resideInAnyPackage;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.Architectures.layeredArchitecture;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;
import static org.junit.jupiter.api.Assertions.assertAll;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.tngtech.archunit.ArchConfiguration;
import com.tngtech.archunit.base.DescribedPredicate;
import com.tngtech.archunit.core.domain.AccessTarget.CodeUnitAccessTarget;
import com.tngtech.archunit.core.domain.JavaAccess;
import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.library.Architectures.LayeredArchitecture;
import java.util.ArrayList;
import java.util.List;
import org.asmeasured.internal.Require;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.function.Executable;

/**
 * The direction of the packages, and what core keeps its hands off: the same inputs give the same
 * bits, silently, on any machine.
 */
class ArchitectureTest {
  private static final String ROOT = "org.asmeasured";

  /** Each may use those before it, and none after it. */
  private static final List<String> LAYERS =
      List.of(
          "internal",
          "signal",
          "linear",
          "frontend",
          "digitizer",
          "acquisition",
          "capture",
          "measure",
          "pulse",
          "spectrum",
          "characterisation",
          "uncertainty",
          "accuracy",
          "advice",
          "fitting");

  /**
   * What was compiled into the same place as this class of core: no tests, no other module. Classes
   * of libraries are known by name alone, which is all that the rules below ask for, and quick.
   */
  private static final JavaClasses CORE =
      ArchConfiguration.withThreadLocalScope(
          configuration -> {
            configuration.setResolveMissingDependenciesFromClassPath(false);
            return new ClassFileImporter()
                .importUrl(Require.class.getProtectionDomain().getCodeSource().getLocation());
          });

  @Test
  void thereAreClassesToCheck() {
    for (String layer : List.of("internal", "signal", "linear")) {
      assertTrue(
          CORE.stream().anyMatch(c -> c.getPackageName().equals(ROOT + "." + layer)),
          "no classes found in " + layer);
    }
    assertEquals(
        List.of(),
        CORE.stream().map(JavaClass::getName).filter(n -> n.endsWith("Test")).toList(),
        "test classes must not be among the classes checked");
  }

  @Test
  void everyClassIsInALayer() {
    String[] packages = LAYERS.stream().map(l -> ROOT + "." + l + "..").toArray(String[]::new);
    classes().should().resideInAnyPackage(packages).check(CORE);
  }

  @Test
  void packagesDependOneWay() {
    LayeredArchitecture layers = layeredArchitecture().consideringOnlyDependenciesInLayers();
    for (String layer : LAYERS) {
      layers = layers.optionalLayer(layer).definedBy(ROOT + "." + layer + "..");
    }
    for (int i = 0; i < LAYERS.size(); i++) {
      String layer = LAYERS.get(i);
      layers =
          i == 0
              ? layers.whereLayer(layer).mayNotAccessAnyLayer()
              : layers
                  .whereLayer(layer)
                  .mayOnlyAccessLayers(LAYERS.subList(0, i).toArray(String[]::new));
    }
    layers.check(CORE);
  }

  @Test
  void noCyclesAmongPackages() {
    slices().matching(ROOT + ".(**)").should().beFreeOfCycles().check(CORE);
  }

  @Test
  void onlyTheStatedLibraries() {
    noClasses()
        .should()
        .dependOnClassesThat(
            not(resideInAnyPackage(
                    ROOT + "..",
                    "java..",
                    "org.apache.commons.math3..",
                    "org.apache.commons.statistics..",
                    "org.ejml..",
                    "org.jtransforms.."))
                .and(describe("are no primitives", c -> !c.isPrimitive() && !c.isArray())))
        .because(
            "core depends on the JDK, Commons Math, Commons Statistics, EJML and JTransforms alone")
        .check(CORE);
  }

  @Test
  void noScreenFilesNetworkOrLogging() {
    noClasses()
        .should()
        .dependOnClassesThat()
        .resideInAnyPackage(
            "java.awt..",
            "java.beans..",
            "java.io..",
            "java.net..",
            "java.nio.file..",
            "java.util.logging..")
        .orShould()
        .dependOnClassesThat()
        .haveNameMatching("java\\.lang\\.System\\$Logger.*")
        .because("core computes; it shows, reads, writes and logs nothing")
        .check(CORE);
  }

  @Test
  void noReflection() {
    noClasses().should().dependOnClassesThat().resideInAPackage("java.lang.reflect..").check(CORE);
    never(
        uses("java.lang.Class", "forName", "newInstance", "getResource", "getResourceAsStream"),
        uses("java.lang.Class", "getMethod", "getMethods", "getField", "getFields"),
        uses("java.lang.Class", "getDeclaredMethod", "getDeclaredMethods"),
        uses("java.lang.Class", "getDeclaredField", "getDeclaredFields"),
        uses("java.lang.Class", "getConstructor", "getDeclaredConstructor"));
  }

  @Test
  void noConsoleEnvironmentOrExit() {
    never(
        uses("java.lang.System", "out", "err", "in", "console"),
        uses("java.lang.System", "getProperty", "getProperties", "getenv", "lineSeparator"),
        uses("java.lang.System", "exit", "gc"),
        uses("java.lang.Runtime", "exit", "halt", "availableProcessors"),
        uses(".*", "printStackTrace"));
  }

  @Test
  void noClock() {
    never(
        uses("java.lang.System", "currentTimeMillis", "nanoTime"),
        uses("java\\.time\\..*", "now"),
        uses("java\\.time\\.Clock", ".*"),
        uses("java\\.util\\.(Date|Calendar|Timer)", ".*"));
  }

  @Test
  void noUnseededRandomness() {
    noClasses()
        .should()
        .dependOnClassesThat()
        .haveNameMatching("java\\.util\\.Random|.*\\.ThreadLocalRandom|java\\.security\\..*")
        .because("random numbers come from a seed, and from a stated generator")
        .check(CORE);
    never(
        uses("java.lang.(Strict)?Math", "random"),
        uses("java.util.UUID", "randomUUID"),
        uses("java.util.Collections", "shuffle"),
        uses("java.util.random.RandomGenerator", "getDefault"),
        describe(
            "new SplittableRandom() without a seed",
            access ->
                access.getTargetOwner().getName().equals("java.util.SplittableRandom")
                    && access.getTarget().getName().equals("<init>")
                    && parametersOf(access).isEmpty()));
  }

  @Test
  void noDefaultLocale() {
    never(
        uses("java.util.Locale", "getDefault"),
        describe(
            "text made in the machine's language",
            access ->
                access.getTargetOwner().getName().equals("java.lang.String")
                    && access.getTarget().getName().matches("format(ted)?|to(Upper|Lower)Case")
                    && !parametersOf(access).contains("java.util.Locale")));
  }

  // Words for rules.

  /** A call, a method reference or an access to a field; owner and names are patterns. */
  private static DescribedPredicate<JavaAccess<?>> uses(String owner, String... names) {
    String name = String.join("|", names);
    return describe(
        owner + " " + name,
        access ->
            access.getTargetOwner().getName().matches(owner)
                && access.getTarget().getName().matches(name));
  }

  private static List<String> parametersOf(JavaAccess<?> access) {
    return access.getTarget() instanceof CodeUnitAccessTarget target
        ? target.getRawParameterTypes().stream().map(JavaClass::getName).toList()
        : List.of();
  }

  @SafeVarargs
  private static void never(DescribedPredicate<JavaAccess<?>>... accesses) {
    List<Executable> checks = new ArrayList<>();
    for (DescribedPredicate<JavaAccess<?>> access : accesses) {
      checks.add(() -> noClasses().should().accessTargetWhere(access).check(CORE));
    }
    assertAll(checks);
  }
}
