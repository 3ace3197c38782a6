package org.benchstroke.web.access;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.InetAddress;
import java.net.UnknownHostException;
import java.util.List;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class HostNamesTest {
  private final HostNames names = new HostNames(List.of("bench.shop.example", "192.0.2.7"));

  private boolean allowed(String host, String local) throws UnknownHostException {
    return names.allow(host, InetAddress.getByName(local));
  }

  @ParameterizedTest
  @CsvSource({
    "localhost, 127.0.0.1",
    "LOCALHOST:7070, 127.0.0.1",
    "127.0.0.1:7070, 127.0.0.1",
    "[::1]:7070, ::1",
    "bench.shop.example, 198.51.100.4",
    "Bench.Shop.Example.:7070, 198.51.100.4",
    "192.0.2.7:7070, 192.0.2.7",
    "198.51.100.4:7070, 198.51.100.4",
    "[2001:db8:0:0:0:0:0:9]:7070, 2001:db8::9"
  })
  void statedNamesAndTheAddressItself(String host, String local) throws UnknownHostException {
    assertThat(allowed(host, local)).isTrue();
  }

  @ParameterizedTest
  @CsvSource({
    "'', 127.0.0.1",
    "rebound.example, 127.0.0.1",
    "localhost.rebound.example, 127.0.0.1",
    "127.0.0.1.rebound.example, 127.0.0.1",
    "rebound.example:127.0.0.1, 127.0.0.1",
    "127.0.0.1@rebound.example, 127.0.0.1",
    "bench.shop.example.rebound.example, 192.0.2.7",
    "198.51.100.5, 198.51.100.4",
    "[::1, 127.0.0.1",
    "0x7f000001, 127.0.0.1"
  })
  void everyOtherIsRefused(String host, String local) throws UnknownHostException {
    assertThat(allowed(host, local)).isFalse();
  }
}
