package org.benchstroke.tests.byhand;

import java.util.ArrayList;
import java.util.List;
import org.benchstroke.core.toml.TomlSection;
import org.benchstroke.judge.TestKind;
import org.benchstroke.procedure.Action;
import org.benchstroke.procedure.Aim;
import org.benchstroke.procedure.Moves;
import org.benchstroke.procedure.TestSpec;

/**
 * What a competent person does and measures with means of their own, under local rules: insulation,
 * earth, stop margin. The program asks for the figures and records them; it judges none.
 *
 * @param items what is asked for
 */
public record ByHand(List<Item> items) implements TestSpec {
  static final String NAME = "recorded by hand";

  /** Its line in the catalogue. */
  public static final TestKind<ByHand> KIND =
      new TestKind<>(NAME, ByHand.class, ByHand::read, ByHandNotes::new);

  private static final double MOST = 1.0e9;

  /**
   * One figure.
   *
   * @param name what it is: "insulation resistance"
   * @param unit its unit: "MΩ"
   */
  public record Item(String name, String unit) implements Aim {
    @Override
    public String words() {
      return name;
    }
  }

  public ByHand {
    items = List.copyOf(items);
  }

  static ByHand read(TomlSection section) {
    List<Item> items = new ArrayList<>();
    for (TomlSection item : section.sections("item")) {
      items.add(new Item(item.text("name"), item.text("unit")));
      item.noOtherKeys();
    }
    return new ByHand(items);
  }

  @Override
  public String name() {
    return NAME;
  }

  @Override
  public List<Action> actions(Moves moves) {
    return items.stream()
        .<Action>map(item -> new Action.Note(item, item.name(), item.unit(), MOST))
        .toList();
  }

  @Override
  public boolean byEye() {
    return true;
  }
}
