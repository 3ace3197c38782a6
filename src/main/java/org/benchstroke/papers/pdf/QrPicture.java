package org.benchstroke.papers.pdf;

import com.google.zxing.WriterException;
import com.google.zxing.qrcode.decoder.ErrorCorrectionLevel;
import com.google.zxing.qrcode.encoder.ByteMatrix;
import com.google.zxing.qrcode.encoder.Encoder;
import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;

/**
 * A text as a QR code (ISO/IEC 18004) of one area, without the quiet zone of four modules that the
 * page leaves around it.
 *
 * @param text letters, digits and line ends of ASCII
 */
public record QrPicture(String text) implements Picture {
  @Override
  public double width() {
    return modules().getWidth();
  }

  @Override
  public double height() {
    return width();
  }

  @Override
  public void draw(Graphics2D on, Letters letters) {
    ByteMatrix modules = modules();
    Path2D dark = new Path2D.Double();
    for (int y = 0; y < modules.getHeight(); y++) {
      int x = 0;
      while (x < modules.getWidth()) {
        int from = x;
        while (x < modules.getWidth() && modules.get(x, y) == 1) {
          x++;
        }
        if (x > from) {
          dark.append(new Rectangle2D.Double(from, y, x - from, 1), false);
        }
        x++;
      }
    }
    on.setColor(Color.BLACK);
    on.fill(dark);
  }

  private ByteMatrix modules() {
    try {
      return Encoder.encode(text, ErrorCorrectionLevel.M).getMatrix();
    } catch (WriterException e) {
      throw new IllegalArgumentException("too long for a QR code", e);
    }
  }
}
