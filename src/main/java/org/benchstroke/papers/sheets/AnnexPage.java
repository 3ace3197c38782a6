package org.benchstroke.papers.sheets;

import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.benchstroke.papers.Block;
import org.benchstroke.papers.Section;
import org.benchstroke.papers.pdf.Picture;
import org.benchstroke.papers.pdf.PlotPicture;
import org.benchstroke.papers.plot.Drawing;

/** An annex in words, as the template sets it. Immutable once it is made. */
public final class AnnexPage {
  private final Frame frame;
  private final List<Section> sections;
  private final IdentityHashMap<Drawing, String> names = new IdentityHashMap<>();
  private final Map<String, Picture> pictures = new TreeMap<>();

  AnnexPage(Frame frame, List<Section> sections) {
    this.frame = frame;
    this.sections = List.copyOf(sections);
    for (Section section : sections) {
      for (Block block : section.blocks()) {
        if (block instanceof Block.Picture picture) {
          name(picture.drawing());
        } else if (block instanceof Block.Panels panels) {
          panels.drawings().forEach(this::name);
        }
      }
    }
  }

  private void name(Drawing drawing) {
    String name = "plot-" + (pictures.size() + 1);
    names.put(drawing, name);
    pictures.put(name, new PlotPicture(drawing));
  }

  public Frame frame() {
    return frame;
  }

  public List<Section> sections() {
    return sections;
  }

  /** The name of the picture of a plot. */
  public String nameOf(Drawing drawing) {
    return names.get(drawing);
  }

  Map<String, Picture> pictures() {
    return pictures;
  }

  /** A text with figures, as it is set on paper. */
  public String set(String text) {
    return Terms.set(text);
  }

  /** A cell's text; of a judgement its shape and its word, as on all papers. */
  public String text(Block.Cell cell) {
    Terms terms = new Terms(frame.words());
    return cell.word().map(terms::marked).orElseGet(() -> Terms.set(cell.text()));
  }

  /** How wide its columns are: many are set smaller. */
  public String columns(Block.Grid grid) {
    int count = grid.headings().size();
    return count > 7 ? "tiny" : count > 4 ? "small-print" : "roomy";
  }
}
