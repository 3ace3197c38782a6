package org.benchstroke.docs;

import static org.assertj.core.api.Assertions.assertThat;

import com.tngtech.archunit.core.domain.Dependency;
import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;

/** The drawing of the wings in DEVELOPERS.md: a wing knows only what lies below its line. */
class PictureTest {
  private static final String ROOT = "org.benchstroke.";
  private static final Pattern DRAWING = Pattern.compile("(?s)```text wings\n(.*?)```");

  /** Names stand left of this column, what explains them right of it. */
  private static final int COLUMN = 44;

  @Test
  void everyWingKnowsOnlyWhatLiesBelowItsLine() throws IOException {
    Map<String, Integer> lines = lines();
    List<String> upwards = new ArrayList<>();
    Set<String> seen = new TreeSet<>();
    for (JavaClass each :
        new ClassFileImporter()
            .withImportOption(new ImportOption.DoNotIncludeTests())
            .importPackages("org.benchstroke")) {
      String wing = wing(each);
      if (wing.isEmpty()) {
        continue;
      }
      seen.add(wing);
      for (Dependency dependency : each.getDirectDependenciesFromSelf()) {
        String other = wing(dependency.getTargetClass());
        if (!other.isEmpty() && !other.equals(wing) && !(lines.get(other) > lines.get(wing))) {
          upwards.add(dependency.getDescription());
        }
      }
    }
    assertThat(lines.keySet()).containsExactlyInAnyOrderElementsOf(seen);
    assertThat(upwards).isEmpty();
  }

  private static Map<String, Integer> lines() throws IOException {
    Matcher drawing = DRAWING.matcher(Files.readString(Path.of("DEVELOPERS.md")));
    assertThat(drawing.find()).isTrue();
    Map<String, Integer> lines = new HashMap<>();
    List<String> drawn = drawing.group(1).lines().toList();
    for (int i = 0; i < drawn.size(); i++) {
      for (String name : drawn.get(i).substring(0, COLUMN).strip().split(" +", -1)) {
        lines.put(name, i);
      }
    }
    return lines;
  }

  /** Empty where it stands in none of them. */
  private static String wing(JavaClass each) {
    String name = each.getPackageName() + ".";
    return name.startsWith(ROOT) ? name.substring(ROOT.length()).split("\\.", -1)[0] : "";
  }
}
