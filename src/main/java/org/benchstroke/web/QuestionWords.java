package org.benchstroke.web;

import org.benchstroke.procedure.Caution;
import org.benchstroke.run.DisplayQuestion;
import org.benchstroke.run.Question;

/**
 * A question in the words of a screen: a verb and a noun, what is to be read, what the key says.
 *
 * @param title a verb and a noun
 * @param text what is to be read
 * @param key what the key that goes on says
 * @param picture the file of its drawing; empty where there is none
 */
public record QuestionWords(String title, String text, String key, String picture) {
  /** Of a question. */
  public static QuestionWords of(Question question) {
    if (question instanceof Question.MotionConsent asked) {
      return new QuestionWords(
          title(asked.caution()),
          asked.caution().text(),
          "Hold: let it move",
          picture(asked.caution()));
    }
    if (question instanceof Question.Acknowledgement asked) {
      return new QuestionWords(
          title(asked.caution()),
          asked.caution().text(),
          key(asked.caution()),
          picture(asked.caution()));
    }
    if (question instanceof Question.Task task) {
      return new QuestionWords("Do this", task.request() + ".", "Done", "");
    }
    DisplayQuestion display = (DisplayQuestion) question;
    return new QuestionWords(
        "Read the " + display.what(), display.words() + ".", "Take this figure", "");
  }

  private static String title(Caution caution) {
    return switch (caution) {
      case SESSION -> "Check the place";
      case MATING -> "Mate and wire";
      case AIR_AND_SPRING -> "Vent the air";
      case POWER_OFF -> "Lock the power off";
      case MOTION, MOTION_BY_RELAY -> "Clear your hands: it will move";
      case END_STOPS -> "Clear your hands: it creeps into its ends";
      case SIGNAL_LOSS -> "Clear your hands: the signal goes";
      case POWER_LOSS -> "Clear your hands: the power goes";
      case LINK_LOST -> "Keep clear";
      case AS_NOTED -> "It is not as ordered";
      case WIRING -> "Wire it";
      case COVER_OFF -> "Prove dead first";
      case HAND_WHEEL -> "Lock the power: the wheel turns";
      case STOPS_AND_CAMS -> "Set stops and cams";
      case AUTO_CALIBRATION -> "Clear your hands: it calibrates itself";
      case AIR, SPRING -> "Air off, spring under load";
      case AIR_BY_HAND -> "Clear your hands: it moves with the air";
      case AIR_ON -> "Clear your hands: the air comes on";
    };
  }

  private static String key(Caution caution) {
    return switch (caution) {
      case SESSION -> "It is so";
      case MATING -> "Mated and wired";
      case AIR_AND_SPRING -> "Vented and proven";
      case POWER_OFF -> "Off and locked";
      default -> "Read";
    };
  }

  private static String picture(Caution caution) {
    return switch (caution) {
      case SESSION -> "caution-place.svg";
      case MATING -> "caution-mate.svg";
      case AIR_AND_SPRING -> "caution-air.svg";
      case POWER_OFF -> "caution-lock.svg";
      case MOTION, MOTION_BY_RELAY, LINK_LOST, AS_NOTED, AUTO_CALIBRATION, AIR_BY_HAND, AIR_ON ->
          "caution-move.svg";
      case WIRING, COVER_OFF, HAND_WHEEL, STOPS_AND_CAMS, AIR, SPRING -> "caution-lock.svg";
      case END_STOPS -> "caution-ends.svg";
      case SIGNAL_LOSS -> "caution-signal.svg";
      case POWER_LOSS -> "caution-power.svg";
    };
  }
}
