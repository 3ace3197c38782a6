package org.benchstroke.papers.pdf;

import java.awt.geom.AffineTransform;
import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.EnumMap;
import java.util.Map;
import org.apache.fontbox.ttf.CmapLookup;
import org.apache.fontbox.ttf.GlyphData;
import org.apache.fontbox.ttf.TTFParser;
import org.apache.fontbox.ttf.TrueTypeFont;
import org.apache.pdfbox.io.RandomAccessReadBuffer;

/**
 * Text as areas, from the font files themselves: the fonts of the machine don't matter, nor whether
 * it has any. For one thread.
 */
public final class Letters {
  private final Map<Fonts, TrueTypeFont> fonts = new EnumMap<>(Fonts.class);

  /** A text with the beginning of its base line at (0, 0), y down; em is the size of its font. */
  public Path2D outline(String text, double em, boolean bold) {
    try {
      TrueTypeFont font = font(bold ? Fonts.BOLD : Fonts.PLAIN);
      CmapLookup characters = font.getUnicodeCmapLookup();
      double scale = em / font.getUnitsPerEm();
      Path2D whole = new Path2D.Double();
      double at = 0.0;
      for (int c : text.codePoints().toArray()) {
        int glyph = characters.getGlyphId(c);
        GlyphData data = font.getGlyph().getGlyph(glyph);
        if (data != null) {
          whole.append(
              data.getPath().getPathIterator(new AffineTransform(scale, 0, 0, -scale, at, 0)),
              false);
        }
        at += font.getAdvanceWidth(glyph) * scale;
      }
      return whole;
    } catch (IOException e) {
      throw new UncheckedIOException("the program file is damaged: a font can't be read", e);
    }
  }

  /** How far it reaches, with the space around its letters. */
  public double width(String text, double em, boolean bold) {
    try {
      TrueTypeFont font = font(bold ? Fonts.BOLD : Fonts.PLAIN);
      CmapLookup characters = font.getUnicodeCmapLookup();
      double units = 0.0;
      for (int c : text.codePoints().toArray()) {
        units += font.getAdvanceWidth(characters.getGlyphId(c));
      }
      return units * em / font.getUnitsPerEm();
    } catch (IOException e) {
      throw new UncheckedIOException("the program file is damaged: a font can't be read", e);
    }
  }

  /** The box around a text's areas. */
  Rectangle2D bounds(String text, double em, boolean bold) {
    return outline(text, em, bold).getBounds2D();
  }

  private TrueTypeFont font(Fonts which) throws IOException {
    TrueTypeFont font = fonts.get(which);
    if (font == null) {
      font = new TTFParser().parse(new RandomAccessReadBuffer(which.open()));
      fonts.put(which, font);
    }
    return font;
  }
}
