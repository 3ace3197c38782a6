package org.benchstroke.bench;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.benchstroke.io.instrument.Language;
import org.benchstroke.io.line.LineWords;
import org.benchstroke.io.modbus.ModbusSettings;
import org.benchstroke.io.scpi.ScpiSettings;

/** The catalogue of the languages that instruments of a bench file may speak. Stateless. */
final class Languages {
  private static final List<Language> ALL =
      List.of(
          ScpiSettings.LANGUAGE,
          ModbusSettings.TCP,
          ModbusSettings.RTU,
          LineWords.LANGUAGE,
          DisplaySettings.LANGUAGE);

  private Languages() {}

  /** By their words, in the order in which messages name them. */
  static Map<String, Language> byWord() {
    Map<String, Language> words = new LinkedHashMap<>();
    ALL.forEach(each -> words.put(each.key(), each));
    return words;
  }
}
