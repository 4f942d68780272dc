package siltwright.launcher;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.time.Duration;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class AddOnPolicyTest {
  @TempDir Path folder;
  private Path file;

  @BeforeEach
  void name() {
    file = folder.resolve(AddOnPolicy.FILE);
  }

  private AddOnPolicy read(String text) throws Exception {
    Files.writeString(file, text);
    Files.setPosixFilePermissions(file, PosixFilePermissions.fromString("rw-r--r--"));
    return AddOnPolicy.read(file);
  }

  private String refusal(String text) {
    return assertThrows(LaunchException.class, () -> read(text)).getMessage();
  }

  @Test
  void withoutAFileThereIsTheUsualOne() throws Exception {
    assertSame(AddOnPolicy.USUAL, AddOnPolicy.read(file));
  }

  @Test
  void aLinkToNowhereIsNotTakenForNoPolicy() throws IOException {
    Files.createSymbolicLink(file, folder.resolve("gone"));
    String told = assertThrows(LaunchException.class, () -> AddOnPolicy.read(file)).getMessage();
    assertTrue(told.contains(file + " cannot be read"), told);
  }

  @Test
  void aMarkOfTheEncodingIsNoPartOfTheFirstKey() throws Exception {
    assertEquals(Duration.ofSeconds(7), read("\uFEFFstart-limit_s=7\n").startLimit());
  }

  @Test
  void aKeyGivenTwiceIsRefused() {
    String told = refusal("signed-only=true\nsigned-only=false\n");
    assertTrue(told.endsWith(": found signed-only twice, expected it once"), told);
  }

  @Test
  void whatIsNoKeyStoreIsRefused() throws IOException {
    for (String no : new String[] {"", ".", "/", "a\\u0000b", "none.p12"}) {
      String told = refusal("trusted=" + no + "\n");
      assertTrue(told.startsWith(file + ", trusted: found "), told);
      assertTrue(told.contains("expected a key store that can be read ("), told);
    }
  }

  @Test
  void aKeyStoreWhosePasswordIsMissingIsNotTakenForAnEmptyOne() throws Exception {
    Path store = folder.resolve("signers.p12");
    Files.copy(Path.of("src", "test", "corpus", "trusted", "sound-signers.p12"), store);
    Files.setPosixFilePermissions(store, PosixFilePermissions.fromString("rw-r--r--"));
    assertTrue(refusal("trusted=signers.p12").endsWith("is its password given?"));
    String wrong = refusal("trusted=signers.p12\ntrusted-password=gravel");
    assertTrue(wrong.endsWith("(keystore password was incorrect)"), wrong);
    assertEquals(1, read("trusted=signers.p12\ntrusted-password=sandsand").trusted().size());
  }

  @Test
  void whatATerminalWouldObeyIsNotRepeated() {
    assertTrue(refusal("start-limit_s=\\u001b[2J").contains("found ?[2J, expected whole seconds"));
  }

  @Test
  void aLargeFileIsNotReadToItsEnd() {
    String told = refusal("#" + "x".repeat(70_000));
    assertTrue(told.contains("found more than 65536 bytes"), told);
  }
}
