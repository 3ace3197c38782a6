package org.benchstroke.core.files;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.AclEntry;
import java.nio.file.attribute.AclEntryPermission;
import java.nio.file.attribute.AclEntryType;
import java.nio.file.attribute.AclFileAttributeView;
import java.nio.file.attribute.PosixFileAttributeView;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/** Files that only their owner may read, by the means that the system has. Stateless. */
public final class OwnerOnly {
  private OwnerOnly() {}

  /**
   * Makes a new file, open for writing: at no moment may anyone else read it.
   *
   * @throws IOException if it can't be made, or is there already
   */
  static FileChannel create(Path file) throws IOException {
    Set<StandardOpenOption> fresh =
        EnumSet.of(StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE);
    if (hasModes(file.toAbsolutePath().getParent())) {
      return FileChannel.open(
          file,
          fresh,
          PosixFilePermissions.asFileAttribute(PosixFilePermissions.fromString("rw-------")));
    }
    FileChannel channel = FileChannel.open(file, fresh);
    Optional<AclFileAttributeView> list =
        Optional.ofNullable(Files.getFileAttributeView(file, AclFileAttributeView.class));
    if (list.isPresent()) {
      AclEntry owner =
          AclEntry.newBuilder()
              .setType(AclEntryType.ALLOW)
              .setPrincipal(list.get().getOwner())
              .setPermissions(EnumSet.allOf(AclEntryPermission.class))
              .build();
      list.get().setAcl(List.of(owner));
    }
    return channel;
  }

  /**
   * Whether nobody but its owner may read or write it; where the system can't tell, it is.
   *
   * @throws IOException if it can't be looked at
   */
  public static boolean is(Path file) throws IOException {
    if (!hasModes(file)) {
      return true;
    }
    return PosixFilePermissions.toString(Files.getPosixFilePermissions(file)).endsWith("------");
  }

  private static boolean hasModes(Path path) throws IOException {
    return Files.getFileStore(path).supportsFileAttributeView(PosixFileAttributeView.class);
  }
}
