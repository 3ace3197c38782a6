package org.benchstroke.io.transport;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Addresses are one program's at a time, however they are written. */
class AddressLocksTest {
  @TempDir Path folder;

  private Path locks() {
    return folder.resolve("addresses");
  }

  @ParameterizedTest
  @CsvSource({"localhost", "LOCALHOST", "127.0.0.1"})
  void oneAddressIsOneHoldersHoweverItIsWritten(String host) throws Exception {
    try (AddressLocks held = take("a run of unit T-1 by Ann", tcp("127.0.0.1", 5025))) {
      assertThat(held).isNotNull();
      assertThatThrownBy(() -> take("another", tcp(host, 5025)))
          .isInstanceOf(AddressLocks.InUse.class)
          .hasMessage("a run of unit T-1 by Ann");
    }
    take("another", tcp(host, 5025)).close();
    assertThat(locks()).isEmptyDirectory();
  }

  @Test
  void twoBenchesDoNotDisturbEachOther() throws Exception {
    try (AddressLocks one = take("one", tcp("127.0.0.1", 5025), tcp("127.0.0.1", 502));
        AddressLocks two = take("two", tcp("127.0.0.1", 5026), tcp("192.0.2.1", 502))) {
      assertThat(one).isNotSameAs(two);
    }
  }

  /** What could be had of it is given back. */
  @Test
  void allOrNothing() throws Exception {
    try (AddressLocks held = take("one", tcp("127.0.0.1", 502))) {
      assertThat(held).isNotNull();
      assertThatThrownBy(() -> take("two", tcp("127.0.0.1", 5025), tcp("127.0.0.1", 502)))
          .isInstanceOf(AddressLocks.InUse.class);
      take("three", tcp("127.0.0.1", 5025)).close();
    }
  }

  @Test
  void oneBoxWithTwoNamesInABenchIsTakenOnce() throws Exception {
    take("one", tcp("127.0.0.1", 5025), tcp("localhost", 5025), new Endpoint.Display()).close();
  }

  @Test
  void aLinkIsTheDeviceThatItPointsTo() throws Exception {
    Path device = Files.createFile(folder.resolve("ttyUSB7"));
    Path link = Files.createSymbolicLink(folder.resolve("by-id"), device);
    try (AddressLocks held = take("one", serial(device))) {
      assertThat(held).isNotNull();
      assertThatThrownBy(() -> take("two", serial(link))).isInstanceOf(AddressLocks.InUse.class);
    }
  }

  /** A file alone holds nothing: its lock went with the program. */
  @Test
  void whatADeadProgramLeftHoldsNothingAndIsClearedAway() throws Exception {
    try (AddressLocks held = take("dead", tcp("127.0.0.1", 5025))) {
      assertThat(held).isNotNull();
      Path left = only();
      Files.copy(
          left, locks().resolve(left.getFileName().toString().replaceFirst("-.*", "-0.lock")));
    }
    take("living", tcp("127.0.0.1", 5025)).close();
    assertThat(locks()).isEmptyDirectory();
  }

  /** Another user must be able to put a file there, to read ours, and not to remove it. */
  @Test
  void allUsersShareTheFolder() throws Exception {
    try (AddressLocks held = take("one", tcp("127.0.0.1", 5025))) {
      assertThat(held).isNotNull();
      assertThat((int) Files.getAttribute(locks(), "unix:mode") & 07777).isEqualTo(01777);
      assertThat((int) Files.getAttribute(only(), "unix:mode") & 07777).isEqualTo(0644);
    }
  }

  @Test
  void aFolderThatIsNoneIsToldAndNothingIsFollowed() throws Exception {
    Path elsewhere = Files.createDirectory(folder.resolve("elsewhere"));
    Files.createSymbolicLink(locks(), elsewhere);
    assertThat(Files.isDirectory(locks(), LinkOption.NOFOLLOW_LINKS)).isFalse();
    assertThatThrownBy(() -> take("one", tcp("127.0.0.1", 5025)))
        .isInstanceOf(IOException.class)
        .hasMessageContaining("is not a folder");
    assertThat(elsewhere).isEmptyDirectory();
  }

  private AddressLocks take(String holder, Endpoint... endpoints)
      throws AddressLocks.InUse, IOException {
    return AddressLocks.take(locks(), List.of(endpoints), holder);
  }

  private Path only() throws IOException {
    try (Stream<Path> files = Files.list(locks())) {
      return files.findFirst().orElseThrow();
    }
  }

  private static Endpoint tcp(String host, int port) {
    return new Endpoint.Tcp(host, port);
  }

  private static Endpoint serial(Path device) {
    return new Endpoint.Serial(new PortName.Device(device.toString()), SerialSettings.USUAL);
  }
}
