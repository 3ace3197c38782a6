package org.benchstroke.papers.pdf;

import com.openhtmltopdf.css.sheet.FontFaceRule;
import com.openhtmltopdf.css.style.CssContext;
import com.openhtmltopdf.extend.OutputDevice;
import com.openhtmltopdf.extend.SVGDrawer;
import com.openhtmltopdf.layout.SharedContext;
import com.openhtmltopdf.outputdevice.helper.BaseRendererBuilder.FontStyle;
import com.openhtmltopdf.render.Box;
import com.openhtmltopdf.render.RenderingContext;
import com.openhtmltopdf.svgsupport.BatikSVGDrawer;
import java.io.File;
import java.io.IOException;
import java.util.List;
import java.util.Map;
import org.w3c.dom.Element;

/**
 * Draws a paper's pictures where its page has an element {@code svg} of their name. Any other such
 * element is SVG that somebody gave, a logo: only then the library that reads SVG is loaded. For
 * one document.
 */
final class PagePictures implements SVGDrawer {
  private final Map<String, Picture> pictures;
  private final Letters letters = new Letters();
  private SVGDrawer foreign;

  PagePictures(Map<String, Picture> pictures) {
    this.pictures = pictures;
  }

  @Override
  public SVGImage buildSVGImage(
      Element element, Box box, CssContext context, double width, double height, double dots) {
    Picture picture = pictures.get(element.getAttribute("id"));
    if (picture == null) {
      return foreign().buildSVGImage(element, box, context, width, height, dots);
    }
    double wide =
        width > 0
            ? width
            : height > 0 ? height * picture.width() / picture.height() : picture.width() * dots;
    double high = height > 0 ? height : wide * picture.height() / picture.width();
    return new Placed(picture, letters, wide, high, dots);
  }

  private SVGDrawer foreign() {
    if (foreign == null) {
      foreign = new BatikSVGDrawer();
    }
    return foreign;
  }

  /** A picture with its size in the renderer's dots. */
  private record Placed(Picture picture, Letters letters, double wide, double high, double dots)
      implements SVGImage {
    @Override
    public int getIntrinsicWidth() {
      return (int) Math.round(wide);
    }

    @Override
    public int getIntrinsicHeight() {
      return (int) Math.round(high);
    }

    @Override
    public void drawSVG(OutputDevice device, RenderingContext context, double x, double y) {
      device.drawWithGraphics(
          (float) x,
          (float) y,
          (float) (wide / dots),
          (float) (high / dots),
          graphics -> {
            double scale = wide / dots / picture.width();
            graphics.scale(scale, scale);
            picture.draw(graphics, letters);
          });
    }
  }

  @Override
  public void importFontFaceRules(List<FontFaceRule> rules, SharedContext shared) {
    // The pictures have their letters from the font files.
  }

  @Override
  public void addFontFile(File file, String family, Integer weight, FontStyle style) {
    // Likewise.
  }

  @Override
  public void close() throws IOException {
    if (foreign != null) {
      foreign.close();
    }
  }
}
