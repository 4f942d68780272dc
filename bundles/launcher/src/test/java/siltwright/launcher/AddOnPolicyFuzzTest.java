package siltwright.launcher;

import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.time.Duration;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import siltwright.model.testing.Fuzz;
import siltwright.model.testing.Mutation;

/** Whatever a policy of add-ons and its key store hold, there is a sound policy or a refusal. */
class AddOnPolicyFuzzTest {
  private static final String STORE = "sound-signers.p12";
  private static final Path TRUSTED = Path.of("src", "test", "corpus", "trusted");

  @Test
  void anyPolicyIsReadOrRefused() throws Exception {
    Fuzz.of("policy", Mutation.TEXT, AddOnPolicyFuzzTest::policy).run(1000);
  }

  private static Optional<String> policy(Path file) throws IOException {
    Path store = file.resolveSibling(STORE);
    Files.copy(TRUSTED.resolve(STORE), store, StandardCopyOption.REPLACE_EXISTING);
    own(store);
    return read(file);
  }

  @Test
  void anyKeyStoreIsReadOrRefused() throws Exception {
    Fuzz.of("trusted", Mutation.BYTES, AddOnPolicyFuzzTest::keyStore).run(300);
  }

  private static Optional<String> keyStore(Path file) throws IOException {
    own(file);
    return read(
        Files.writeString(
            file.resolveSibling(AddOnPolicy.FILE),
            "signed-only=true\ntrusted=" + file.getFileName() + "\ntrusted-password=sandsand\n"));
  }

  private static Optional<String> read(Path file) throws IOException {
    own(file);
    AddOnPolicy policy;
    try {
      policy = AddOnPolicy.read(file);
    } catch (LaunchException e) {
      return Optional.of(e.getMessage());
    }
    assertFalse(policy.signedOnly() && policy.trusted() == null);
    for (Duration limit : new Duration[] {policy.startLimit(), policy.silenceLimit()}) {
      assertTrue(limit.toSeconds() >= 1 && limit.toSeconds() < 1_000_000, limit.toString());
    }
    return Optional.empty();
  }

  /** A file that others can write to would be refused for that. */
  private static void own(Path file) {
    file.toFile().setWritable(false, false);
    file.toFile().setWritable(true, true);
  }
}
