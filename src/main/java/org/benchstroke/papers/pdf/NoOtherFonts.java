package org.benchstroke.papers.pdf;

import org.apache.fontbox.FontBoxFont;
import org.apache.fontbox.ttf.TrueTypeFont;
import org.apache.pdfbox.pdmodel.font.CIDFontMapping;
import org.apache.pdfbox.pdmodel.font.FontMapper;
import org.apache.pdfbox.pdmodel.font.FontMappers;
import org.apache.pdfbox.pdmodel.font.FontMapping;
import org.apache.pdfbox.pdmodel.font.PDCIDSystemInfo;
import org.apache.pdfbox.pdmodel.font.PDFontDescriptor;

/**
 * The library would look through all fonts of the machine for one that a file names and does not
 * hold, and keep a list of them in the home folder. Our files hold their fonts. Stateless.
 */
final class NoOtherFonts implements FontMapper {
  private NoOtherFonts() {}

  /** For the whole program. */
  static void set() {
    FontMappers.set(new NoOtherFonts());
  }

  @Override
  public FontMapping<TrueTypeFont> getTrueTypeFont(String name, PDFontDescriptor descriptor) {
    throw none(name);
  }

  @Override
  public FontMapping<FontBoxFont> getFontBoxFont(String name, PDFontDescriptor descriptor) {
    throw none(name);
  }

  @Override
  public CIDFontMapping getCIDFont(
      String name, PDFontDescriptor descriptor, PDCIDSystemInfo system) {
    throw none(name);
  }

  private static IllegalStateException none(String name) {
    return new IllegalStateException("the font " + name + " is not within the file");
  }
}
