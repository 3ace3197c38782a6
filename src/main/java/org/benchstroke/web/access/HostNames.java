package org.benchstroke.web.access;

import java.net.InetAddress;
import java.util.Collection;
import java.util.Locale;
import java.util.Set;
import java.util.TreeSet;

/**
 * By which names a browser may call this machine. A page elsewhere can have a name of its own point
 * here (DNS rebinding), and its scripts would then pass for ours: only names that were stated
 * count, and the address at which the request came in. Immutable.
 */
public final class HostNames {
  private final Set<String> stated = new TreeSet<>();

  /**
   * The names of the loopback, and these.
   *
   * @param names host names or addresses, without a port
   */
  public HostNames(Collection<String> names) {
    stated.addAll(Set.of("localhost", "127.0.0.1", "::1"));
    names.forEach(name -> stated.add(plain(name)));
  }

  /**
   * Whether a request may call it so.
   *
   * @param host what its header says: a name or an address, with a port or without
   * @param local the address at which it came in
   */
  public boolean allow(String host, InetAddress local) {
    String name = plain(host);
    return stated.contains(name) || name.equals(plain(local.getHostAddress()));
  }

  /** Without port, brackets, scope and the point at the end. */
  private static String plain(String host) {
    String name = host.strip().toLowerCase(Locale.ROOT);
    if (name.startsWith("[")) {
      int end = name.indexOf(']');
      return end < 0 ? "" : name.substring(1, end);
    }
    int colon = name.indexOf(':');
    if (colon >= 0 && colon == name.lastIndexOf(':')) {
      name = name.substring(0, colon);
    }
    int scope = name.indexOf('%');
    name = scope < 0 ? name : name.substring(0, scope);
    return name.endsWith(".") ? name.substring(0, name.length() - 1) : name;
  }
}
