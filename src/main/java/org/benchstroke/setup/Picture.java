package org.benchstroke.setup;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Locale;

/** The project's own drawings of the steps, SVG. What they show stands in words, too. Stateless. */
public enum Picture {
  TOOLS("A bench with hex keys, a meter, the order and the maker's page laid out."),
  COUPLING(
      "The coupling piece between the unit's shaft and the valve's stem; its flats and its"
          + " mark line up."),
  MATE(
      "Unit above valve, both at closed: the slot of the stem lies across the bore, the padlock"
          + " is on the supply."),
  WIRE(
      "Two cables through two entries: power on the left, signal on the right; the shield is"
          + " earthed at one end only."),
  STOPS_OUT("Both stop screws turned out until they are clear of the travel."),
  WHEEL_CLOSED("The hand wheel turns the shaft to 0°, closed; the padlock is on the supply."),
  CAM_CLOSED(
      "A cam on the shaft meets the lever of the end switch at closed: turn the cam on,"
          + " stop at the click, then turn the wheel back."),
  AUXILIARY_CLOSED(
      "Two cams at closed: the auxiliary one meets its lever a few degrees before the"
          + " end switch."),
  STOP_CLOSED("The stop screw at closed turned in until it meets, then two turns back."),
  WHEEL_OPEN("The hand wheel turns the shaft to full travel, open; the padlock is on the supply."),
  CAM_OPEN(
      "A cam on the shaft meets the lever of the end switch at open: turn the cam on, stop at"
          + " the click, then turn the wheel back."),
  AUXILIARY_OPEN(
      "Two cams at open: the auxiliary one meets its lever a few degrees before the end"
          + " switch."),
  STOP_OPEN("The stop screw at open turned in until it meets, then two turns back."),
  WHEEL_MIDDLE("The hand wheel turns the shaft to the middle of its travel."),
  POWER_ON("Hands away from valve, lever and wheel; the padlock is off, the supply comes on."),
  CALIBRATION(
      "The unit drives to closed, then to open, and takes what lies between for its" + " travel."),
  DISPLAY(
      "The unit's own display with its version, voltage, dead band, loss action and"
          + " direction."),
  HEATER("The enclosure with its heater, and the hand wheel pulled out of the gear."),
  AIR("The regulator lets air in slowly; the spring pushes back; the gauge shows the pressure."),
  READY("Unit and valve with all covers closed, ready for the test.");

  private final String alt;

  Picture(String alt) {
    this.alt = alt;
  }

  /** What it shows, in words, for who can't see it. */
  public String alt() {
    return alt;
  }

  /** Its file's name. */
  public String file() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-') + ".svg";
  }

  /** The drawing, SVG in UTF-8; no script, no link, no size of its own beyond its box. */
  public String svg() {
    try (InputStream in = Picture.class.getResourceAsStream("pictures/" + file())) {
      if (in == null) {
        throw new IllegalStateException("the program has no picture " + file());
      }
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
