package siltwright.launcher;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.file.Path;
import java.security.CodeSigner;
import java.security.cert.Certificate;
import java.security.cert.X509Certificate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import java.util.jar.JarEntry;
import java.util.jar.JarFile;

/**
 * Who signed a jar, as the JDK verifies it.
 *
 * @param signers those who signed every entry of it; empty if none did
 */
record Signature(List<CodeSigner> signers) {
  Signature {
    signers = List.copyOf(signers);
  }

  /**
   * Reads a jar to its end and has the JDK verify it.
   *
   * @throws SecurityException if its content is not what was signed
   * @throws IOException if it cannot be read
   */
  static Signature read(Path jar) throws IOException {
    List<CodeSigner> common = null;
    try (JarFile file = new JarFile(jar.toFile(), true)) {
      for (JarEntry entry : Collections.list(file.entries())) {
        if (entry.isDirectory()) {
          continue;
        }
        try (InputStream in = file.getInputStream(entry)) {
          in.transferTo(OutputStream.nullOutputStream());
        }
        if (isOfSignatures(entry.getName())) {
          continue;
        }
        CodeSigner[] of = entry.getCodeSigners();
        List<CodeSigner> signers = of == null ? List.of() : Arrays.asList(of);
        if (common == null) {
          common = new ArrayList<>(signers);
        } else {
          common.retainAll(signers);
        }
      }
    }
    return new Signature(common == null ? List.of() : common);
  }

  /** The files that hold the signatures are not signed themselves (JAR File Specification). */
  private static boolean isOfSignatures(String entry) {
    String name = entry.toUpperCase(Locale.ROOT);
    return name.matches("META-INF/(MANIFEST[.]MF|SIG-[^/]*|[^/]*[.](SF|RSA|DSA|EC))");
  }

  /** Returns the signers' names as their certificates have them; empty if it is not signed. */
  List<String> names() {
    List<String> names = new ArrayList<>();
    for (CodeSigner signer : signers) {
      Certificate certificate = signer.getSignerCertPath().getCertificates().get(0);
      names.add(
          certificate instanceof X509Certificate x
              ? x.getSubjectX500Principal().getName()
              : certificate.getType());
    }
    return names;
  }
}
